#include "lodeway/route/escape/ways_off.hpp"

#include <array>

#include <gtest/gtest.h>

namespace lodeway::route {
namespace {

using mapdata::Kind;

/// 2 km x 2 km of flat ground, a road along its southern edge.
walking::Ground plain(bool road) {
  walking::Ground g;
  g.grid = *earth::MapGrid::from_text("EPSG:32629");
  g.elevation = terrain::Elevation(terrain::Frame{480000, 6052000, 10, 200, 200}, 200.0F);
  for (int k = 0; k < mapdata::kind_count; ++k) g.kinds[static_cast<Kind>(k)].speed_factor = 1;
  if (road)
    g.map.lines.push_back({{Kind::road, "Low road"}, {{480000, 6050100}, {482000, 6050100}}});
  return g;
}

walking::Course one_leg() {
  walking::Course course;
  course.line = {{480800, 6051100}, {481200, 6051100}};
  return course;
}

std::optional<walking::WayOff> off_of(const WaysOff& ways, const walking::Course& course) {
  const std::array courses{&course};
  return ways.of(courses).front();
}

// By hand: 1000 m due south at 4 km/h over open ground of factor 0.8, taken 1.4 times slower for
// attention: 15 * 1.4 / 0.8 = 26.25 min, some seconds for finding the road (40 s), times 1 + 1.2816
// * 0.15.
TEST(WaysOff, SouthToTheRoad) {
  const auto g = plain(true);
  walking::Request request;
  const Prepared prepared(g, request);
  const auto found = off_of(WaysOff(g, request, prepared, units::Language::english), one_leg());
  ASSERT_TRUE(found);
  const auto& off = *found;
  EXPECT_EQ(off.haven, "Low road");
  EXPECT_NEAR(off.first.in_degrees(), 180, 6);
  EXPECT_NEAR(off.minutes, 1.15 * (26.25 + 40.0 / 60) * 1.622,
              1.2);  // within two cells' walk
  EXPECT_NEAR(off.line.back().north_m, 6050100, 1);
}

// A tent on a cell that is barred itself (a lake's edge runs through it) is reached from the cells
// beside it; one in the middle of the lake, or out of the ground, is refused.
TEST(WaysOff, ToWhereTheLeaderSaysItIsSafe) {
  auto g = plain(true);
  g.kinds[Kind::lake].forbids = true;
  g.map.areas.push_back(
      {{Kind::lake, "Mirk Tarn"},
       {{480950, 6051300}, {481050, 6051300}, {481050, 6051400}, {480950, 6051400}},
       {}});
  g.map.lines.push_back({{Kind::cliff, "Edge"}, {{481000, 6051200}, {481030, 6051200}}});
  walking::Request request;
  request.safe = {{"Tent", {481005, 6051192}}};
  const Prepared prepared(g, request);
  ASSERT_EQ(prepared.cover.bar_at({481005, 6051199}), walking::Bar::cliff);
  EXPECT_TRUE(check_haven(g, prepared, request.safe[0]));
  const auto found = off_of(WaysOff(g, request, prepared, units::Language::english), one_leg());
  ASSERT_TRUE(found);
  EXPECT_EQ(found->haven, "Tent");
  const auto lake = check_haven(g, prepared, {"Tent", {481000, 6051350}});
  ASSERT_FALSE(lake);
  EXPECT_EQ(lake.error().what,
            "safe: Tent (481000 6051350): expected open ground, here is water (Mirk Tarn)");
  const auto out = check_haven(g, prepared, {"Tent", {400000, 6000000}});
  ASSERT_FALSE(out);
  EXPECT_EQ(out.error().what,
            "safe: Tent (400000 6000000): expected a place that the ground file holds, easting "
            "480000 to 482000, northing 6050000 to 6052000");
}

TEST(WaysOff, NothingToReachIsSaidByNothing) {
  const auto g = plain(false);
  walking::Request request;
  const Prepared prepared(g, request);
  const auto found = off_of(WaysOff(g, request, prepared, units::Language::english), one_leg());
  EXPECT_FALSE(found);
}

// A field that was kept as far as one leg needed it serves only where it is settled: legs nearer to
// the road and farther off get what they get without.
TEST(WaysOff, KeptIsAsWorkedOutAnew) {
  const auto g = plain(true);
  const walking::Request request;
  const Prepared prepared(g, request);
  KeptFields kept(1);
  const WaysOff with(g, request, prepared, units::Language::english, &kept),
      without(g, request, prepared, units::Language::english);
  for (const double north : {1000.0, 400.0, 1040.0, 1900.0, 1000.0}) {
    auto course = one_leg();
    for (auto& p : course.line) p.north_m = 6050000 + north;
    const auto a = off_of(with, course), b = off_of(without, course);
    ASSERT_TRUE(a && b);
    EXPECT_EQ(a->minutes, b->minutes);
    EXPECT_EQ(a->line, b->line);
  }
}

}  // namespace
}  // namespace lodeway::route
