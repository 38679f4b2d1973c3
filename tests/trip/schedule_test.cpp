#include "lodeway/trip/schedule.hpp"

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
    daylight = {Clock{7 * 60}, Clock{7 * 60 + 30}, Clock{16 * 60}, Clock{16 * 60 + 40}, ""};
  }
  reckoning::JudgedWay way;
  Trip trip;
  Daylight daylight;
  std::vector<double> back{30, 70, 100, 140};
};

TEST_F(ByHand, PointsAreFoundAtTheEndsOfTheirLegs) {
  EXPECT_EQ(legs_that_reach(trip.request, way), (std::vector<int>{2, 3}));
}

TEST_F(ByHand, RestWhenDueAndStayWhereAsked) {
  EXPECT_EQ(rests_after(trip.request, way), (std::vector<double>{0, 10, 15, 0}));
}

TEST_F(ByHand, ClockRuns) {
  const auto s = make_schedule(trip, way, daylight, back);
  ASSERT_EQ(s.legs.size(), 4U);
  EXPECT_EQ(s.legs[0].arrive, Clock{9 * 60 + 30});
  EXPECT_EQ(s.legs[1].arrive, Clock{10 * 60 + 10});
  EXPECT_EQ(s.legs[2].leave, Clock{10 * 60 + 20});
  EXPECT_EQ(s.legs[3].leave, Clock{10 * 60 + 55});
  EXPECT_EQ(s.end, Clock{11 * 60 + 45});
  EXPECT_EQ(s.end_slow, Clock{12 * 60 + 13});  // 168 min of walking and 25 of rest
  EXPECT_EQ(s.act_by, Clock{13 * 60 + 13});    // and one hour of the drill
}

TEST_F(ByHand, MarginsAndLatestStart) {
  const auto s = make_schedule(trip, way, daylight, back);
  EXPECT_EQ(s.to_sunset_min, 16 * 60 - (11 * 60 + 45));
  EXPECT_EQ(s.to_dusk_min, 16 * 60 + 40 - (11 * 60 + 45));
  EXPECT_EQ(s.latest_start, Clock{9 * 60 + (16 * 60 + 40) - (12 * 60 + 13)});
}

TEST_F(ByHand, TurnRoundWhereOnAndBackAreNearest) {
  // Slow, with rests: on from the ends of legs 1, 2, 3: 132 + 25, 84 + 25, 60 + 15;
  // back 36, 84, 120. The larger of the two is least at leg 2: 109 minutes before sunset.
  const auto s = make_schedule(trip, way, daylight, back);
  EXPECT_EQ(s.turn_round_leg, 1);
  EXPECT_NEAR(s.turn_round_back_min, 84, 1e-9);
  EXPECT_EQ(s.turn_round, Clock{16 * 60 - 109});
}

// The best place, leg 2's end, cannot be recognised: then leg 3's, 120 minutes before sunset.
TEST_F(ByHand, NobodyTurnsRoundAtAPlaceThatCannotBeSeen) {
  way.legs[1].judged.fix_at_end = false;
  const auto s = make_schedule(trip, way, daylight, back);
  EXPECT_EQ(s.turn_round_leg, 2);
  EXPECT_EQ(s.turn_round, Clock{16 * 60 - 120});
}

TEST_F(ByHand, NoSunsetNoMargins) {
  const auto s = make_schedule(trip, way, {{}, {}, {}, {}, "the sun does not set"}, back);
  EXPECT_FALSE(s.to_sunset_min || s.to_dusk_min || s.latest_start || s.turn_round);
}

// Who sets out to walk by night has no daylight to turn back by, nor who starts after it; and the
// last moment to turn is none when it is over before the start (16:00 - 109 min = 14:11).
TEST_F(ByHand, NobodyTurnsRoundBeforeSettingOut) {
  trip.start = Clock{18 * 60};
  auto s = make_schedule(trip, way, daylight, back);
  EXPECT_FALSE(s.latest_start || s.turn_round);
  EXPECT_EQ(s.turn_round_leg, -1);
  EXPECT_LT(*s.to_dusk_min, 0);  // what there is to say stays said
  trip.start = Clock{14 * 60 + 30};
  s = make_schedule(trip, way, daylight, back);
  EXPECT_TRUE(s.latest_start);
  EXPECT_FALSE(s.turn_round);
  trip.start = Clock{9 * 60};
  trip.request.party.visibility = mapdata::Visibility::night;
  s = make_schedule(trip, way, daylight, back);
  EXPECT_FALSE(s.latest_start || s.turn_round);
}

// Twilight all night: the sun still sets, and that is what the party turns back by.
TEST_F(ByHand, WithoutAnEndOfTwilightTheSunsetCounts) {
  daylight.dawn = daylight.dusk = {};
  const auto s = make_schedule(trip, way, daylight, back);
  EXPECT_EQ(s.turn_round, Clock{16 * 60 - 109});
  EXPECT_FALSE(s.latest_start);
}

TEST_F(ByHand, OneLegHasNoPlaceToTurn) {
  way.legs.resize(1);
  const auto s = make_schedule(trip, way, daylight, {30});
  EXPECT_EQ(s.turn_round_leg, -1);
  EXPECT_EQ(s.end, Clock{9 * 60 + 30});
}

}  // namespace
}  // namespace lodeway::trip
