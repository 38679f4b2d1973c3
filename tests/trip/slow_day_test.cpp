// The slow day, counted of parties whose minutes are written down here.
#include "lodeway/trip/slow_day.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/trip/schedule.hpp"

namespace lodeway::trip {
namespace {

reckoning::JudgedLeg leg(double from_east, double to_east, double minutes) {
  reckoning::JudgedLeg out;
  out.course.line = {{from_east, 0}, {to_east, 0}};
  out.judged.minutes = minutes;
  return out;
}

/// Two legs of 30 and 40 min in the middle, 20 min of stay at the first one's end; eleven parties,
/// of which party k takes 30 + k and 40 + 2 k min: the nine-in-ten party is number 9 of 0 to 10.
struct Eleven : testing::Test {
  Eleven() {
    way.legs = {leg(0, 1000, 30), leg(1000, 2000, 40)};
    request.points = {
        {"a", {0, 0}}, {"b", {1000, 0}, walking::Stretch::find, 20}, {"c", {2000, 0}}};
    request.party.rest_every_min = 0;
    days.parties = 11;
    for (int k = 0; k < 11; ++k) days.ended.push_back(static_cast<float>(30 + k));
    for (int k = 0; k < 11; ++k) {
      days.ended.push_back(static_cast<float>(90 + 3 * k));
      days.home.push_back(static_cast<float>(90 + 3 * k));
      days.walked.push_back(static_cast<float>(70 + 3 * k));
    }
  }
  void never_home(std::size_t party) {
    days.ended[11 + party] = std::numeric_limits<float>::quiet_NaN();
    days.home[party] = std::numeric_limits<float>::infinity();
  }
  reckoning::JudgedWay way;
  walking::Request request;
  walking::WalkedDays days;
};

// 39 min, then 20 of stay and 58: 117. Half of eleven are six: 35 + 20 + 50 = 105.
TEST_F(Eleven, NineInTenAreBack) {
  const auto day = slow_day_of(request, way, days);
  EXPECT_NEAR(day.arrive[0], 39, 1e-9);
  EXPECT_NEAR(day.arrive[1], 117, 1e-9);
  EXPECT_NEAR(day.end.value(), 117, 1e-9);
  EXPECT_NEAR(day.middle.value(), 105, 1e-9);
  EXPECT_NEAR(day.on[0].value(), 78, 1e-9);
  EXPECT_NEAR(day.on[1].value(), 0, 1e-9);
  EXPECT_NEAR(day.slowness, (39 + 58) / 70.0, 1e-6);
  EXPECT_EQ(day.never_home, 0);
  const auto by_then = std::ranges::count_if(days.home, [&](float h) { return h <= 117; });
  EXPECT_GE(by_then, 0.9 * 11);
}

// Party 4, neither quick nor slow, is never home: of eleven ten are, and the tenth is number 10.
TEST_F(Eleven, WhoIsNeverHomeCountsAmongAll) {
  never_home(4);
  const auto day = slow_day_of(request, way, days);
  EXPECT_NEAR(day.end.value(), 90 + 3 * 10, 1e-9);
  EXPECT_NEAR(day.on[0].value(), 120 - 40, 1e-9);
  EXPECT_NEAR(day.arrive[1], 117, 1e-9) << "of the ten that got there the ninth";
  EXPECT_NEAR(day.never_home, 1.0 / 11, 1e-12);
}

// Two of eleven never are: nine in ten are home at no hour, and none is invented.
TEST_F(Eleven, WhereMoreThanOneInTenAreNeverHomeNoHourIsNamed) {
  never_home(4);
  never_home(7);
  const auto day = slow_day_of(request, way, days);
  EXPECT_FALSE(day.end);
  EXPECT_FALSE(day.on[0]);
  EXPECT_NEAR(day.middle.value(), 105 + 3 * 1, 1e-9) << "six of eleven: 0 to 3, 5 and 6";
  EXPECT_NEAR(day.never_home, 2.0 / 11, 1e-12);
  EXPECT_GT(day.never_home, most_never_home);
  Trip trip;
  trip.request = request;
  trip.start = Clock{9 * 60};
  Daylight daylight;
  const auto s = make_schedule(trip, way, daylight, {30, 70}, day);
  EXPECT_FALSE(s.end_slow);
  EXPECT_FALSE(s.act_by);
  EXPECT_FALSE(s.latest_start);
  EXPECT_FALSE(s.turn_round) << "neither home nor last light bounds the day";
  EXPECT_EQ(s.end_half, Clock{9 * 60 + 108});
}

// Who turns back on the first leg is home too: the slowest of all, after 150 and 200 min.
TEST_F(Eleven, WhoTurnsBackIsHome) {
  for (const auto& [party, minutes] : {std::pair{10U, 200.0F}, {9U, 150.0F}}) {
    days.ended[party] = days.ended[11 + party] = std::numeric_limits<float>::quiet_NaN();
    days.home[party] = minutes;
  }
  EXPECT_NEAR(slow_day_of(request, way, days).end.value(), 150, 1e-9);
}

// Where nobody walked, by the bands: one leg of 60 min with sigma 0.2 of the whole day:
// 60 e^(1.28155 x 0.2) = 77.53.
TEST_F(Eleven, WithoutWalkersTheBandsSay) {
  way.legs = {leg(0, 2000, 60)};
  request.points = {{"a", {0, 0}}, {"c", {2000, 0}}};
  request.party.time_band = 0.2;
  const auto day = slow_day_of(request, way);
  EXPECT_NEAR(day.end.value(), 77.53, 0.005);
  EXPECT_EQ(day.walkers, 0U);
  EXPECT_NEAR(day.middle.value(), 60, 1e-9);
}

}  // namespace
}  // namespace lodeway::trip
