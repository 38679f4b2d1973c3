#include "lodeway/reckoning/growth/growth.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace growth_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using numeric::Covariance;
using units::GridBearing;

constexpr Covariance sloping{400, 150, 900};  // a start that is unsure along north-east

// By hand: on grid north, along is the north, the right is east; on grid east, the right is south,
// so that what is positive together is negative there. 210 degrees: s = -1/2, c = -sqrt(3)/2;
// s c (xx - yy) + (c c - s s) xy = 0.4330 * (-500) + 0.5 * 150.
TEST(Growth, TheStartIsSeenFromTheLeg) {
  const Errors none{};
  const auto north = growth_of(none, 0, sloping, sloping, GridBearing::degrees(0), 100);
  EXPECT_NEAR(north.start_along_m2, 900, 1e-9);
  EXPECT_NEAR(north.start_cross_m2, 400, 1e-9);
  EXPECT_NEAR(north.start_both_m2, 150, 1e-9);
  const auto east = growth_of(none, 0, sloping, sloping, GridBearing::degrees(90), 100);
  EXPECT_NEAR(east.start_along_m2, 400, 1e-9);
  EXPECT_NEAR(east.start_cross_m2, 900, 1e-9);
  EXPECT_NEAR(east.start_both_m2, -150, 1e-9);
  const auto slanting = growth_of(none, 0, sloping, sloping, GridBearing::degrees(210), 100);
  EXPECT_NEAR(slanting.start_both_m2, -141.50635, 1e-5);
}

// What the header promises, and by hand half-way: a start and a bearing that the same compass made
// wrong, c0 = k theta, has the variance (k + d)^2 of the angle's after d.
TEST(Growth, OneCompassBeforeAndOnTheLeg) {
  const double angle = 0.03, before_m = 800, length_m = 500;
  Errors compass_only;
  compass_only.bearing_sigma = compass_only.distance_sigma = compass_only.distance_random = 0;
  compass_only.sighting_sigma = compass_only.stride_sigma = 0;
  compass_only.compass_sigma = angle;
  const auto on = GridBearing::degrees(40);
  Drift drift(compass_only, 0, {});
  drift.add_leg(on, before_m);
  const auto before = drift.total();
  drift.add_leg(on, length_m);
  const auto g = growth_of(compass_only, angle * angle, before, drift.total(), on, length_m);
  for (const double d : {0.0, 250.0, 500.0}) {
    const double beside_m = angle * (before_m + d);
    EXPECT_NEAR(g.cross_m2(d), beside_m * beside_m, 1e-6) << d;
    EXPECT_NEAR(g.along_m2(d), 0, 1e-6) << d;
  }
}
}  // namespace growth_test
