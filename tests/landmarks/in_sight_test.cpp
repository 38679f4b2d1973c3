// A plain with one wall across it: what stands before the wall is seen, what lies behind is not.
#include "lodeway/landmarks/in_sight.hpp"

#include <algorithm>

#include <gtest/gtest.h>

namespace lodeway::landmarks {
namespace {

using mapdata::Kind;

/// 2 km x 2 km of plain at 100 m; a wall 20 m high along 1000 m east; behind it a tower of 60 m.
terrain::Elevation plain_with_wall() {
  terrain::Elevation z({0, 2000, 10, 200, 200}, 100.0F);
  for (int r = 0; r < 200; ++r) z[r, 100] = 120;
  z[100, 150] = 160;
  return z;
}

TEST(InSight, BeforeAndBehindAWall) {
  const auto heights = plain_with_wall();
  const earth::GridPoint eye{505, 995};  // 500 m west of the wall, the tower 1000 m east
  mapdata::MapData map;
  map.points = {{{Kind::summit, "Tower"}, {1505, 995}, 160},
                {{Kind::summit, "Hidden"}, {1305, 995}, 100},
                {{Kind::summit, "Here"}, {505, 995}, 100},
                {{Kind::cairn, "No top"}, {600, 995}, 100}};
  map.areas = {{{Kind::lake, "Near Water"}, {{700, 900}, {800, 900}, {800, 1100}, {700, 1100}}, {}},
               {{Kind::lake, "Far Water"}, {{1600, 900}, {1700, 900}, {1700, 1100}}, {}},
               {{Kind::wood, "Wood"}, {{700, 900}, {800, 900}, {800, 1100}}, {}}};
  // a beck that goes under the wall: 600 m of it before, 400 m behind
  map.lines = {{{Kind::stream, "Beck"}, {{405, 1205}, {1405, 1205}}},
               {{Kind::stream, ""}, {{405, 1305}, {905, 1305}}}};
  const auto seen = terrain::viewshed(heights, eye);
  const auto found = in_sight(heights, map, seen, eye);
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[0].name, "Tower");  // 1.6 m eye, 20 m wall at 500 m: at 1000 m all above 138 m
  EXPECT_DOUBLE_EQ(found[0].distance_m, 1000);
  EXPECT_DOUBLE_EQ(found[0].bearing.in_degrees(), 90);
  EXPECT_EQ(found[1].name, "Near Water");
  EXPECT_NEAR(found[1].distance_m, 200, 1e-9);  // the cell whose centre is at 705
  EXPECT_DOUBLE_EQ(found[1].share, 1);
  EXPECT_EQ(found[2].name, "Beck");
  EXPECT_NEAR(found[2].share, 0.60, 0.02);
  EXPECT_NEAR(found[2].distance_m, 210, 1e-9);  // straight north of the eye, 1205 - 995
  EXPECT_NEAR(found[2].bearing.in_degrees(), 0, 1e-9);
}

TEST(InSight, AnEyeOutsideSeesNothing) {
  const auto heights = plain_with_wall();
  mapdata::MapData map;
  map.points = {{{Kind::summit, "Tower"}, {1505, 995}, 160}};
  const earth::GridPoint eye{-50, 995};
  EXPECT_TRUE(in_sight(heights, map, terrain::viewshed(heights, eye), eye).empty());
}

}  // namespace
}  // namespace lodeway::landmarks
