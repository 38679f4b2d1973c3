#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/terrain/visibility.hpp"
#include "sight/made_ground.hpp"

namespace lodeway::sight {
namespace {
using earth::GridPoint;
using made::south;
using made::west;
constexpr double degrees = 180 / std::numbers::pi;

// Against the formula that the ground is made of.
TEST(CuePlanes, HeightFallAndSteepnessAreTheFormulas) {
  const auto p = made::planes_of(made::ground());
  for (int r = 5; r < p.frame.rows - 5; r += 7) {
    for (int c = 5; c < p.frame.cols - 5; c += 7) {
      const GridPoint at = p.frame.centre(r, c);
      const std::size_t i = p.index(r, c);
      const double y = at.north_m - south;
      const double east = 0.12, north = 60.0 / 400 * std::cos(y / 400);
      EXPECT_NEAR(p.height_m(i), made::height(at), 0.13);
      EXPECT_NEAR(p.slope_deg(i), std::atan(std::hypot(east, north)) * degrees, 0.3);
      EXPECT_NEAR(std::remainder(p.fall_deg(i) - std::atan2(-east, -north) * degrees, 360), 0, 0.9);
    }
  }
}

// Bars of another party over planes that are there already: as if made with its own cover.
TEST(CuePlanes, AnotherPartysBarsAreLaidAsIfMadeAnew) {
  auto g = made::ground();
  const GridPoint in_wood{west + 2000, south + 2000};
  g.map.areas.push_back({{mapdata::Kind::wood, ""},
                         {in_wood, in_wood + GridPoint{300, 0}, in_wood + GridPoint{300, 300},
                          in_wood + GridPoint{0, 300}},
                         {}});
  auto planes = made::planes_of(g);
  walking::Request request;
  request.party.max_slope_deg = 9;  // the ground has 7 to 11
  const walking::Cover cover(g, request);
  numeric::Serial serial;
  const auto anew = cue_planes(g, cover, {}, serial);
  const auto barred = [](const CuePlanes& p) {
    return std::ranges::count_if(p.bar, [](auto b) { return b != walking::Bar::none; });
  };
  ASSERT_GT(barred(anew), barred(planes) + 1000);
  ASSERT_EQ(std::ranges::count(anew.wood, 1), 30 * 30);
  lay_cover(planes, cover, serial);
  EXPECT_EQ(planes.bar, anew.bar);
  EXPECT_EQ(planes.wood, anew.wood);
  EXPECT_EQ(planes.form, anew.form);
}

// Distance and direction by plain geometry, for places on both sides and beyond the ends.
TEST(CuePlanes, NearestLineIsThatOfGeometry) {
  const auto g = made::ground();
  const auto p = made::planes_of(g);
  const auto* path = p.plane_of(mapdata::Kind::path);
  ASSERT_NE(path, nullptr);
  const GridPoint a = g.map.lines[0].points[0], b = g.map.lines[0].points[1];
  const double lie = earth::grid_bearing(a, b).in_degrees();
  numeric::Random random(5);
  int near = 0, beyond = 0;
  for (int k = 0; k < 4000; ++k) {
    const int r = static_cast<int>(random.uniform() * p.frame.rows);
    const int c = static_cast<int>(random.uniform() * p.frame.cols);
    const GridPoint at = p.frame.centre(r, c);
    const GridPoint on = a + mapdata::nearest_fraction(a, b, at) * (b - a);
    const double d = earth::grid_distance_m(at, on);
    const auto found = nearest_of(*path, p.index(r, c));
    ASSERT_EQ(found.has_value(), d <= path->reach_m) << d;
    if (!found) continue;
    EXPECT_NEAR(found->distance_m, d, 1.01);
    EXPECT_NEAR(std::remainder(found->lie_deg - lie, 180), 0, 0.71);
    const bool between = on != a && on != b;
    if (between && d > 5) {
      ++near;
      EXPECT_NEAR(
          std::remainder(found->bearing_deg - earth::grid_bearing(at, on).in_degrees(), 360), 0,
          0.8);
    }
    beyond += !between;
  }
  EXPECT_GT(near, 100);
  EXPECT_GT(beyond, 5);
}

TEST(CuePlanes, AWindowIsThePieceOfTheWhole) {
  const auto g = made::ground();
  const auto all = made::planes_of(g);
  const auto cut = made::planes_of(g, Window{west + 1010, south + 990, west + 2005, south + 1995});
  ASSERT_EQ(cut.frame.cols, 100);
  ASSERT_EQ(cut.frame.rows, 101);
  const auto [row, col] = all.frame.cell_of(cut.frame.centre(0, 0));
  for (int r = 0; r < cut.frame.rows; ++r) {
    for (int c = 0; c < cut.frame.cols; ++c) {
      const std::size_t i = cut.index(r, c), j = all.index(row + r, col + c);
      ASSERT_NEAR(cut.height_m(i), all.height_m(j), 0.26);
      ASSERT_EQ(cut.fall[i], all.fall[j]);
      ASSERT_EQ(cut.steepness[i], all.steepness[j]);
      ASSERT_EQ(cut.near[0].distance[i], all.near[0].distance[j]);
    }
  }
}

TEST(CuePlanes, VoidsAreMaskedAndNotFlatGround) {
  auto g = made::ground();
  g.elevation[100, 100] = std::numeric_limits<float>::quiet_NaN();
  const auto p = made::planes_of(g);
  EXPECT_FALSE(p.known(p.index(100, 100)));
  EXPECT_FALSE(p.cell(p.frame.centre(100, 100)).has_value());
  EXPECT_TRUE(p.known(p.index(100, 101)));
  EXPECT_EQ(p.bar[p.index(100, 100)], walking::Bar::void_height);
  // its neighbours keep their slope from the other side
  EXPECT_NEAR(p.slope_deg(p.index(100, 102)), p.slope_deg(p.index(100, 104)), 1);
}

TEST(CuePlanes, LargeCellsComeFromSmallOnes) {
  const auto p = made::planes_of(made::ground(5));
  EXPECT_EQ(p.frame.cell_m, 10);
  EXPECT_EQ(p.frame.cols, 400);
  EXPECT_NEAR(p.height_m(p.index(37, 59)), made::height(p.frame.centre(37, 59)), 0.2);
}

// On ground that slopes evenly a top sees everything that the reach lets it see.
TEST(CuePlanes, AViewIsTheLineOfSight) {
  auto g = made::ground();
  auto p = made::planes_of(g);
  std::int32_t pike = -1;
  for (std::size_t t = 0; t < p.things.size(); ++t) {
    if (p.things[t].name == "High Pike") pike = static_cast<std::int32_t>(t);
  }
  ASSERT_GE(pike, 0);
  numeric::Serial serial;
  look_from(p, {&pike, 1}, serial);
  const auto& view = p.views[static_cast<std::size_t>(pike)];
  numeric::Random random(9);
  int checked = 0, agree = 0;
  const GridPoint top = p.things[static_cast<std::size_t>(pike)].at;
  for (int k = 0; k < 600; ++k) {
    const int r = static_cast<int>(random.uniform() * p.frame.rows);
    const int c = static_cast<int>(random.uniform() * p.frame.cols);
    terrain::Sight sight;
    sight.eye_m = 2;
    sight.target_m = 1.6;
    const bool sees =
        terrain::sees(g.elevation, top, p.frame.centre(r, c), sight) == terrain::Seen::seen;
    agree += sees == (view[p.index(r, c)] == 1);
    ++checked;
  }
  EXPECT_GE(agree, checked * 95 / 100);  // brows within a cell of 20 m may differ
}
}  // namespace
}  // namespace lodeway::sight
