// The slow day, counted of parties whose minutes are written down here.
#include "lodeway/trip/slow_day.hpp"

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
    times.walkers = 11;
    times.gave_up.assign(11, -1);
    for (int k = 0; k < 11; ++k) times.minutes.push_back(static_cast<float>(30 + k));
    for (int k = 0; k < 11; ++k) times.minutes.push_back(static_cast<float>(40 + 2 * k));
  }
  reckoning::JudgedWay way;
  walking::Request request;
  reckoning::RehearsedTimes times;
  std::vector<double> back{30, 70};
};

// 39 min, then 20 of stay and 58: 117. Half of them 35 + 20 + 50 = 105.
TEST_F(Eleven, NineInTenAreBack) {
  const auto day = slow_day_of(request, way, back, times);
  EXPECT_NEAR(day.arrive[0], 39, 1e-9);
  EXPECT_NEAR(day.arrive[1], 117, 1e-9);
  EXPECT_NEAR(day.end, 117, 1e-9);
  EXPECT_NEAR(day.middle, 105, 1e-9);
  EXPECT_NEAR(day.on[0], 78, 1e-9);
  EXPECT_NEAR(day.on[1], 0, 1e-9);
  EXPECT_NEAR(day.slowness, (39 + 58) / 70.0, 1e-6);
  int by_then = 0;
  for (int k = 0; k < 11; ++k) by_then += 30 + k + 20 + 40 + 2 * k <= day.end ? 1 : 0;
  EXPECT_EQ(by_then, 10);
}

// A rest of 10 min after 50: the stay of 20 min at 30 to 40 min is one, leg 2's of 40 to 60 min
// brings one more for parties 6 to 10 (52 to 60 min: due 2 to 10 min before the end, put off to
// it, and none at the very end): none. With legs of 50 + 2 k: all but those up to 60 rest.
TEST_F(Eleven, EachPartyRestsByItsOwnMinutes) {
  request.party.rest_every_min = 50;
  request.party.rest_min = 10;
  EXPECT_NEAR(slow_day_of(request, way, back, times).end, 117, 1e-9);
  for (std::size_t k = 0; k < 11; ++k) times.minutes[11 + k] += 10;
  // Party 9: 39 + 20 + 68 + 10; party 10: 40 + 20 + 70 + 10; party 5: 35 + 20 + 60, no rest yet.
  const auto day = slow_day_of(request, way, back, times);
  EXPECT_NEAR(day.end, 137, 1e-9);
  EXPECT_NEAR(day.middle, 115, 1e-9);
}

// Party 10 gives up on leg 2 after 120 min on it and goes back from its start, as slow as it was:
// 30 min x (40 + 120) / 70. It is home later than all others and counts among the eleven.
TEST_F(Eleven, WhoGivesUpIsBackToo) {
  times.minutes[11 + 10] = 120;
  times.gave_up[10] = 1;
  const auto day = slow_day_of(request, way, back, times);
  EXPECT_NEAR(day.end, 117, 1e-9) << "the tenth of eleven still decides";
  times.gave_up[9] = 1;  // 39 + 20 + 58, and 30 x 97 / 70 back
  const auto two = slow_day_of(request, way, back, times);
  EXPECT_NEAR(two.end, 117 + 30 * 97 / 70.0, 1e-5);
  EXPECT_NEAR(two.arrive[1], 30 + 20 + 40 + 3 * 0.9 * 8, 1e-9) << "of the nine that got there";
}

TEST_F(Eleven, WhoTurnsBackOnTheFirstLegIsAtTheStart) {
  times.minutes[10] = 200;
  times.minutes[11 + 10] = std::numeric_limits<float>::quiet_NaN();
  times.gave_up[10] = 0;
  times.minutes[9] = 150;
  times.minutes[11 + 9] = std::numeric_limits<float>::quiet_NaN();
  times.gave_up[9] = 0;
  EXPECT_NEAR(slow_day_of(request, way, back, times).end, 150, 1e-9);
}

// Without a rehearsal, by the bands: one leg of 60 min with sigma 0.2 of the whole day:
// 60 e^(1.28155 x 0.2) = 77.53.
TEST_F(Eleven, WithoutARehearsalTheBandsSay) {
  way.legs = {leg(0, 2000, 60)};
  request.points = {{"a", {0, 0}}, {"c", {2000, 0}}};
  request.party.time_band = 0.2;
  const auto day = slow_day_of(request, way);
  EXPECT_NEAR(day.end, 77.53, 0.005);
  EXPECT_EQ(day.walkers, 0U);
  EXPECT_NEAR(day.middle, 60, 1e-9);
}

}  // namespace
}  // namespace lodeway::trip
