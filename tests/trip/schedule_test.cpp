#include "lodeway/trip/schedule.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

reckoning::JudgedLeg leg(double from_east, double to_east, double minutes, double slow) {
  reckoning::JudgedLeg out;
  out.course.line = {{from_east, 0}, {to_east, 0}};
  out.judged.minutes = minutes;
  out.judged.minutes_slow = slow;
  return out;
}

/// A day on which every leg takes its slow minutes, with the rests and stays of the plan.
SlowDay added_up(const Trip& trip, const reckoning::JudgedWay& way) {
  const auto rests = rests_of(trip.request, way);
  SlowDay out;
  double now = 0, slow = 0, middle = 0;
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    now += way.legs[k].judged.minutes_slow + rests[k].within_min;
    out.arrive.push_back(now);
    now += rests[k].after_min;
    slow += way.legs[k].judged.minutes_slow;
    middle += way.legs[k].judged.minutes;
  }
  out.end = now;
  for (const double there : out.arrive) out.on.push_back(now - there);
  out.slowness = slow / middle;
  return out;
}

// Worked by hand: four legs of 30, 40, 20 and 50 min, slow day 20 % longer, start 09:00,
// rest 10 min after each 50 min of walking, 15 min planned at the end of leg 3.
struct ByHand : testing::Test {
  ByHand() {
    way.legs = {leg(0, 1000, 30, 36), leg(1000, 2000, 40, 48), leg(2000, 3000, 20, 24),
                leg(3000, 4000, 50, 60)};
    trip.start = Clock{9 * 60};
    trip.request.points = {
        {"a", {0, 0}}, {"b", {3000, 0}, walking::Stretch::find, 15}, {"c", {4000, 0}}};
    trip.request.party.rest_every_min = 50;
    trip.request.party.rest_min = 10;
    daylight = {Clock{7 * 60}, Clock{7 * 60 + 30}, Clock{16 * 60}, Clock{16 * 60 + 40}, "", {}};
  }
  reckoning::JudgedWay way;
  Trip trip;
  Daylight daylight;
  std::vector<double> back{30, 70, 100, 140};
};

TEST_F(ByHand, PointsAreFoundAtTheEndsOfTheirLegs) {
  EXPECT_EQ(legs_that_reach(trip.request, way), (std::vector<int>{2, 3}));
}

// Due 20 min into leg 2, 20 min before its end: there and then. The stay of 15 min is a rest too.
TEST_F(ByHand, RestsFallWhereTheRuleSays) {
  const auto rests = rests_of(trip.request, way);
  ASSERT_EQ(rests.size(), 4U);
  EXPECT_EQ(rests[1].within_min, 10);
  EXPECT_EQ(rests[1].after_min, 0);
  EXPECT_EQ(rests[2].after_min, 15);
  EXPECT_EQ(rests[0].within_min + rests[2].within_min + rests[3].within_min, 0);
  EXPECT_EQ(rests[3].after_min, 0) << "no rest after the last leg";
  // One leg of 170 min: rests after 50, 100 and 150 min; of 108: one, the second would be 8 min
  // before the end of the trip.
  way.legs = {leg(0, 4000, 170, 200)};
  EXPECT_EQ(rests_of(trip.request, way)[0].within_min, 30);
  way.legs = {leg(0, 4000, 108, 130)};
  EXPECT_EQ(rests_of(trip.request, way)[0].within_min, 10);
}

TEST_F(ByHand, ClockRuns) {
  const auto s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  ASSERT_EQ(s.legs.size(), 4U);
  EXPECT_EQ(s.legs[0].arrive, Clock{9 * 60 + 30});
  EXPECT_EQ(s.legs[1].arrive, Clock{10 * 60 + 20});  // with the rest on the way
  EXPECT_EQ(s.legs[2].leave, Clock{10 * 60 + 20});
  EXPECT_EQ(s.legs[3].leave, Clock{10 * 60 + 55});
  EXPECT_EQ(s.end, Clock{11 * 60 + 45});
  EXPECT_EQ(s.end_slow, Clock{12 * 60 + 13});  // 168 min of walking and 25 of rest
  EXPECT_EQ(s.act_by, Clock{13 * 60 + 13});    // and one hour of the drill
}

TEST_F(ByHand, MarginsAndLatestStart) {
  const auto s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_EQ(s.to_sunset_min, 16 * 60 - (11 * 60 + 45));
  EXPECT_EQ(s.to_dusk_min, 16 * 60 + 40 - (11 * 60 + 45));
  EXPECT_EQ(s.latest_start, Clock{9 * 60 + (16 * 60 + 40) - (12 * 60 + 13)});
}

// No worry until 12:13. Slow, with rests and stays: on from the ends of legs 1, 2, 3: 157, 99, 75;
// back 36, 84 + 10, 120 + 10: from leg 3 on is the shorter. On before 12:13: 09:36, 10:34; planned
// there 09:30, 10:20. Leg 2 leaves most time.
TEST_F(ByHand, TurnRoundSoThatNobodyWhoObeysIsCalledFor) {
  const auto s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_EQ(s.turn_round_leg, 1);
  EXPECT_EQ(s.turn_round, Clock{10 * 60 + 34});
  EXPECT_NEAR(s.turn_round_back_min, 94, 1e-9);
  EXPECT_LE(*s.turn_round + Clock{94}, s.end_slow);
  EXPECT_EQ(*s.turn_round, s.legs[1].arrive_slow) << "who is slow, but no slower, may go on";
}

// The law behind it, for any way: back or on, from the turn's place at the turn's time, the slow
// day ends before anybody at home begins to call.
TEST_F(ByHand, TheCardsObeyedNobodyIsSearchedFor) {
  int with = 0;
  for (int k = 0; k < 60; ++k) {
    const double a = 10 + 7 * k % 90, b = 15 + 11 * k % 70, c = 5 + 13 * k % 120;
    way.legs = {leg(0, 1000, a, 1.3 * a), leg(1000, 2000, b, 1.3 * b), leg(2000, 3000, c, 1.3 * c),
                leg(3000, 4000, 40, 52)};
    const auto s = make_schedule(trip, way, daylight, {a, a + b, a + b + c, a + b + c + 40},
                                 added_up(trip, way));
    if (!s.turn_round) continue;  // the first leg is more than half of it
    ++with;
    const auto way_back = Clock{static_cast<long>(std::ceil(s.turn_round_back_min))};
    EXPECT_LE(*s.turn_round + way_back, s.end_slow) << k;
    EXPECT_LT(*s.turn_round + way_back, s.act_by) << k;
    const auto i = static_cast<std::size_t>(s.turn_round_leg);
    EXPECT_GE(*s.turn_round, s.legs[i].arrive) << k << ": the plan itself may go on";
  }
  EXPECT_GT(with, 30);
}

// Leg 2's end cannot be recognised: then leg 1's, where 6 min are left; from leg 3 way_back is too
// far.
TEST_F(ByHand, NobodyTurnsRoundAtAPlaceThatCannotBeSeen) {
  way.legs[1].judged.fix_at_end = false;
  const auto s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_EQ(s.turn_round_leg, 0);
  EXPECT_EQ(s.turn_round, Clock{9 * 60 + 36});
}

// Last light at 11:50, before the slow day's end: the turn is 11:50 - 99 min = 10:11, before the
// party is there by the plan. Whoever reads the two knows not to start like this.
TEST_F(ByHand, ADayThatIsTooShortTurnsBeforeTheArrival) {
  daylight.set = Clock{11 * 60 + 30};
  daylight.dusk = Clock{11 * 60 + 50};
  const auto s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  ASSERT_TRUE(s.turn_round);
  EXPECT_EQ(*s.turn_round, Clock{10 * 60 + 11});
  EXPECT_LT(*s.turn_round, s.legs[static_cast<std::size_t>(s.turn_round_leg)].arrive);
}

// By hand: a slow day of 3 h 13 that must end by 11:50 begins by 08:37; first light is later, so there
// is no latest start, but for who planned the night no day is too short.
TEST_F(ByHand, NoLatestStartBeforeFirstLight) {
  daylight.dusk = Clock{11 * 60 + 50};
  daylight.dawn = Clock{8 * 60 + 37};
  EXPECT_EQ(make_schedule(trip, way, daylight, back, added_up(trip, way)).latest_start,
            Clock{8 * 60 + 37});
  daylight.dawn = Clock{8 * 60 + 38};
  EXPECT_FALSE(make_schedule(trip, way, daylight, back, added_up(trip, way)).latest_start);
}

// Where it does not get dark, and for who walks by night, home's clock alone counts.
TEST_F(ByHand, WithoutDarknessTheTurnIsByHome) {
  auto s = make_schedule(trip, way, {{}, {}, {}, {}, "the sun does not set", {}}, back,
                         added_up(trip, way));
  EXPECT_FALSE(s.to_sunset_min || s.to_dusk_min || s.latest_start);
  EXPECT_EQ(s.turn_round, Clock{10 * 60 + 34});
  trip.request.party.visibility = mapdata::Visibility::night;
  trip.start = Clock{20 * 60};
  s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_FALSE(s.latest_start);
  EXPECT_EQ(s.turn_round, Clock{21 * 60 + 34});
}

// The last moment to turn is none when it is over before the start: 16:40 - 99 min = 15:01.
TEST_F(ByHand, NobodyTurnsRoundBeforeSettingOut) {
  trip.start = Clock{15 * 60 + 30};
  const auto s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_TRUE(s.latest_start);
  EXPECT_FALSE(s.turn_round);
  EXPECT_EQ(s.turn_round_leg, -1);
}

TEST_F(ByHand, OneLegHasNoPlaceToTurn) {
  way.legs.resize(1);
  const auto s = make_schedule(trip, way, daylight, {30}, added_up(trip, way));
  EXPECT_EQ(s.turn_round_leg, -1);
  EXPECT_EQ(s.end, Clock{9 * 60 + 30});
}

// Nothing but walking, leg 1 slow by 10 min: on from the ends of legs 1 and 2 132 and 84 min before
// 11:52 is 09:40 and 10:28, 10 and 18 min after the plan. Leg 1's end is in everybody's head.
TEST_F(ByHand, ThePlaceThatTheLeaderNamedIsTheOneToTurnAt) {
  trip.request.party.rest_every_min = 0;
  way.legs[0].judged.minutes_slow = 40;
  trip.request.points = {{"a", {0, 0}}, {"b", {1000, 0}}, {"c", {4000, 0}}};
  back = {30, 60, 100, 140};
  const auto named = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_EQ(named.turn_round_leg, 0);
  EXPECT_EQ(named.turn_round, Clock{9 * 60 + 40});
  trip.request.points.erase(trip.request.points.begin() + 1);
  const auto unnamed = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_EQ(unnamed.turn_round_leg, 1);
  EXPECT_EQ(unnamed.turn_round, Clock{10 * 60 + 28});
}

// No end can be known: then no hour is named at which to turn, for nobody would know the place.
TEST_F(ByHand, NobodyTurnsRoundAtABlindTurn) {
  for (auto& one : way.legs) one.judged.fix_at_end = false;
  EXPECT_FALSE(make_schedule(trip, way, daylight, back, added_up(trip, way)).turn_round);
}

// A stay of 15 min at the place of the turn is on the way on: from there 15 + 24 + 60 + 10 = 109
// before 12:23 is 10:34.
TEST_F(ByHand, AStayWhereThePartyTurnsCountsOnTheWayOn) {
  trip.request.points[1].at = {2000, 0};
  const auto s = make_schedule(trip, way, daylight, back, added_up(trip, way));
  EXPECT_EQ(s.end_slow, Clock{12 * 60 + 23});
  EXPECT_EQ(s.turn_round_leg, 1);
  EXPECT_EQ(s.turn_round, Clock{10 * 60 + 34});
}

}  // namespace
}  // namespace lodeway::trip
