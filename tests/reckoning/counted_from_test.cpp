/// Where the count on a line runs from, by hand: docs/method/ends-of-legs.md.
#include <gtest/gtest.h>

#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/judge/counted_from.hpp"
#include "made_ground.hpp"

namespace counted_from_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using made::Kind;

/// Notices a gate 0.9, a stream 0.5 of the times, if it attends (0.8, practised); never comes off a
/// path; counts 5 in 100 wrong.
walking::Party party() {
  walking::Party p;
  p.errors = {2, 3, 100, 0.05, 1e-9, 1e-9};
  const auto chance = [&](walking::ChanceOf of, walking::KindClass kind, double value) {
    p.chances.chances.push_back({of, kind, {value, value, value, value}});
  };
  chance(walking::ChanceOf::notice, walking::KindClass::mark, 0.9);
  chance(walking::ChanceOf::notice, walking::KindClass::water, 0.5);
  chance(walking::ChanceOf::stay, walking::KindClass::path, 1);
  return p;
}

walking::Ground ground() {
  auto g = made::ground();
  made::add_line(g, Kind::path, {{0, -600}, {0, 1500}});
  return g;
}

walking::Leg leg_with(const std::vector<std::pair<Kind, double>>& ticks) {
  auto leg = made::along_leg({{0, -600}, {0, 600}}, Kind::path);
  for (const auto& [kind, at] : ticks)
    leg.ticks.push_back({"", kind, mapdata::Side::none, at, 0, {0, -600 + at}});
  return leg;
}

// 0.8 x 0.9 = 0.72 count from the gate; of the 0.28 that did not notice it 0.8 x 0.5 = 0.4 from the
// stream, 0.112, and the rest, 0.168, from the start.
TEST(CountedFrom, TheLastThingThatIsNoticed) {
  const auto g = ground();
  const Judge judge(g, party(), {}, 0);
  const auto from = counted_from(judge, leg_with({{Kind::stream, 400}, {Kind::gate, 1050}}), 1200);
  ASSERT_EQ(from.size(), 3U);
  EXPECT_DOUBLE_EQ(from[0].since_m, 150);
  EXPECT_DOUBLE_EQ(from[1].since_m, 800);
  EXPECT_DOUBLE_EQ(from[2].since_m, 1200);
  EXPECT_NEAR(from[0].chance, 0.72, 1e-12);
  EXPECT_NEAR(from[1].chance, 0.112, 1e-12);
  EXPECT_NEAR(from[2].chance, 0.168, 1e-12);
}

// A bend, which has no kind, is told; nobody is sure which of them it is, and nothing is counted from it.
TEST(CountedFrom, NotFromABend) {
  const auto g = ground();
  const Judge judge(g, party(), {}, 0);
  const auto from = counted_from(judge, leg_with({{Kind::gate, 400}, {Kind::other, 1050}}), 1200);
  ASSERT_EQ(from.size(), 2U);
  EXPECT_DOUBLE_EQ(from[0].since_m, 800);
  EXPECT_NEAR(from[0].chance, 0.72, 1e-12);
  EXPECT_DOUBLE_EQ(from[1].since_m, 1200);
}

// Ticks are told in metres on the ground: 10 in 100 more of them than by the grid.
TEST(CountedFrom, IsOfTheGrid) {
  const auto g = ground();
  const Judge judge(g, party(), {}, 0);
  auto leg = leg_with({{Kind::gate, 1155}});
  leg.figures.length_m = 1320;
  EXPECT_NEAR(counted_from(judge, leg, 1200).front().since_m, 150, 1e-9);
}

// A gate 150 m before the end of 1200 m: 7.5 m of error to come within 50, or 60 m: P(|z| < 0.8333)
// = 0.5953 by any table of the normal distribution. 0.72 + 0.28 x 0.5953 = 0.8867.
TEST(CountedFrom, MakesTheCertaintyOfALegByTheCount) {
  const auto g = ground();
  const Judge judge(g, party(), {}, 0);
  const auto leg = leg_with({{Kind::gate, 1050}});
  Drift carried = judge.at_fix();
  const auto m = judge.weigh(leg, carried);
  const auto& end = std::get<ByHandrail>(m.end);
  ASSERT_FALSE(end.mark);
  EXPECT_NEAR(m.certainty, 0.8867, 0.0001);
  EXPECT_DOUBLE_EQ(end.since_tick_m, 150);
}

// Where a path turns back on itself within 20 m, somebody who does not know the bend goes on.
TEST(CountedFrom, APathThatTurnsBackGoesOn) {
  auto g = made::ground();
  made::add_line(g, Kind::path, {{0, -600}, {0, 0}, {3, -600}});
  made::add_line(g, Kind::path, {{400, -600}, {400, 0}});
  const Judge judge(g, party(), {}, 0);
  const auto& guides = judge.guides();
  EXPECT_TRUE(goes_on_past_end(guides, {{0, -600}, {0, 0}}, Kind::path));
  EXPECT_FALSE(goes_on_past_end(guides, {{400, -600}, {400, 0}}, Kind::path));
}
}  // namespace counted_from_test
