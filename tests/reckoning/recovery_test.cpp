/// What a lost leg costs, by hand: standing to think, and the way there and back. A minute of these
/// legs is 66.7 m (0.015 min a metre), the habits are the defaults: 10 minutes of doubt.
#include <gtest/gtest.h>

#include "lodeway/reckoning/judge/judge.hpp"
#include "knowing.hpp"
#include "made_ground.hpp"

namespace recovery_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using made::Kind;

walking::Party party() {
  walking::Party p;
  p.errors = {2, 3, 100, 0.05, 1e-9, 1e-9};  // one leg alone: nothing is shared
  return p;
}

Weighed weighed(const walking::Ground& g, const walking::Leg& leg) {
  const Judge judge(g, made::knowing(g, party()), {}, 0);
  Drift carried = judge.at_fix();
  return judge.weigh(leg, carried);
}

// 800 m by a bearing: sigma along sqrt(5^2 + 40^2) = 40.31 m, two of them past the count, and all
// of it back: 2 (800 + 80.62) 0.015 = 26.42.
TEST(Recovery, ABearingGoesBackToItsStart) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  const auto m = weighed(g, made::bearing_leg({0, 0}, {0, 800}));
  ASSERT_TRUE(std::holds_alternative<AtMark>(m.end));
  EXPECT_NEAR(m.recovery_minutes, 36.42, 0.005);
}

// A path of 1600 m to a cairn that is known when seen: who fails has lost the path, and finds it
// again within a quarter of it: 2 * 400 * 0.015 = 12.
TEST(Recovery, WhoLosesALineFindsItWithinAQuarter) {
  auto g = made::ground();
  made::add_line(g, Kind::path, {{0, -800}, {0, 800}});
  made::add_point(g, Kind::cairn, {0, 800});
  const auto m = weighed(g, made::along_leg({{0, -800}, {0, 800}}, Kind::path));
  ASSERT_TRUE(std::get<ByHandrail>(m.end).mark);
  EXPECT_NEAR(m.recovery_minutes, 22, 1e-6);
}

// The last leg ends at nothing: two of the larger sigmas out and back, 2 * 80.62 * 0.015 = 2.42.
TEST(Recovery, AWayThatEndsAtNothingIsLookedRoundFor) {
  const auto g = made::ground();
  const Judge judge(g, made::knowing(g, party()), {}, 0);
  Drift carried = judge.at_fix();
  const auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto m = judge.as_end_of_way(leg, judge.weigh(leg, carried));
  EXPECT_NEAR(m.recovery_minutes, 12.42, 0.005);
}

// Aimed off: along the line the wrong way, by the offset and two sigmas, and back.
TEST(Recovery, AnAimedLegSearchesTheWrongWayAndBack) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 800}, {1500, 800}});
  const auto m = weighed(g, made::bearing_leg({0, 0}, {0, 800}));
  const AtLine* end = aimed_off(m.end);
  ASSERT_TRUE(end);
  EXPECT_NEAR(m.recovery_minutes, 10 + 2 * (std::abs(end->offset_m) + 2 * end->line_sigma_m) * 0.015,
              1e-9);
}

// 1000 m of path by the count alone: sigma 50 m, and who is more than 50 m off has lost the leg. A
// normal cut off at one sigma to each side has 0.29112 of its variance (1 - 2 phi(1) / (2 Phi(1) -
// 1), with phi(1) = 0.241971, Phi(1) = 0.841345: any table of the normal distribution), 727.8 of
// 2500; beside the path 5 m.
TEST(Recovery, WhoKeptALegByTheCountKnowsThatMuch) {
  auto g = made::ground();
  made::add_line(g, Kind::path, {{0, -500}, {0, 1500}});
  const Judge judge(g, made::knowing(g, party()), {}, 0);
  Drift carried = judge.at_fix();
  const auto m = judge.weigh(made::along_leg({{0, -500}, {0, 500}}, Kind::path), carried);
  ASSERT_FALSE(std::get<ByHandrail>(m.end).mark);
  EXPECT_NEAR(carried.total().yy, 727.8, 0.1);
  EXPECT_NEAR(carried.total().xx, 25, 1e-6);
}

// A road that the party leaves and comes to again is met where it comes to it: as sure as one whose
// first piece is not there at all.
TEST(Recovery, ALineThatIsLeftAtTheStartIsNotMetThere) {
  const auto sure = [](std::vector<GridPoint> road) {
    auto g = made::ground();
    made::add_line(g, Kind::path, std::move(road));
    const auto m = weighed(g, made::bearing_leg({0, 0}, {0, 600}));
    EXPECT_TRUE(std::holds_alternative<AtLine>(m.end));
    return m.certainty;
  };
  const double apart = sure({{250, 200}, {500, 400}, {-600, 840}});
  EXPECT_GT(apart, 0.5);
  // it winds across the way 8 m after the start
  EXPECT_NEAR(sure({{-3, 0}, {-3, 8}, {40, 12}, {250, 200}, {500, 400}, {-600, 840}}), apart, 0.01);
}
}  // namespace recovery_test
