#include "lodeway/reckoning/judge/single_leg.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <numbers>

namespace {
using namespace lodeway;
using namespace lodeway::reckoning;
constexpr double degree = std::numbers::pi / 180;

SingleLeg leg_to_point(double length, double seen_from) {
  SingleLeg leg;
  leg.length_m = length;
  leg.errors = errors_of({});
  leg.seen_from_m = seen_from;
  return leg;
}

TEST(SingleLeg, LongestLegIsTheLastSureOne) {
  const SingleLeg leg = leg_to_point(1, 40);
  const double longest = *longest_leg_m(leg, 0.9);
  EXPECT_GE(reckon_leg(leg_to_point(longest, 40))->certainty, 0.9);
  EXPECT_LT(reckon_leg(leg_to_point(longest + 1, 40))->certainty, 0.9);
}

TEST(SingleLeg, RefusesWhatItCannotMean) {
  const auto what = [](const SingleLeg& leg) { return reckon_leg(leg).error().what; };
  EXPECT_EQ(what(leg_to_point(0, 40)), "length: expected metres above 0, at most 1000000, got 0");
  EXPECT_EQ(what(leg_to_point(500, 0)), "seen from: expected metres above 0, got 0");
  SingleLeg both = leg_to_point(500, 40);
  both.crossing_angle_rad = 1;
  EXPECT_EQ(what(both), "target: expected a point or a line");
  both.seen_from_m.reset();
  both.crossing_angle_rad = 100 * degree;
  EXPECT_EQ(what(both), "crossing angle: expected degrees above 0, at most 90, got 100");
}

RC_GTEST_PROP(SingleLeg, MoreErrorIsNeverSurer, ()) {
  SingleLeg leg = leg_to_point(*rc::gen::inRange(100, 3000), *rc::gen::inRange(10, 200));
  leg.errors.bearing_sigma = *rc::gen::inRange(5, 60) * 0.1 * degree;
  const double here = reckon_leg(leg)->certainty;
  leg.errors.bearing_sigma *= 1.3;
  RC_ASSERT(reckon_leg(leg)->certainty <= here + 1e-9);
  leg.errors.sighting_sigma *= 1.3;
  RC_ASSERT(reckon_leg(leg)->certainty <= here + 1e-9);
  const double before_length = reckon_leg(leg)->certainty;
  leg.length_m *= 1.1;
  RC_ASSERT(reckon_leg(leg)->certainty <= before_length + 1e-9);
}
}  // namespace
