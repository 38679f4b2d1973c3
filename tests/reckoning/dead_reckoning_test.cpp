#include "lodeway/reckoning/growth/dead_reckoning.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace dead_reckoning_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using numeric::axes_of;
using numeric::Covariance;
constexpr double degree = std::numbers::pi / 180;
units::GridBearing on(double radians) {
  return units::GridBearing::degrees(units::Angle::radians(radians).in_degrees());
}

Errors example_errors() {
  Errors e;
  e.bearing_sigma = 3 * degree;
  e.distance_sigma = 0.05;
  e.compass_sigma = 1.5 * degree;
  e.stride_sigma = 0.04;
  return e;
}

// The worked example of docs/method/dead-reckoning.md [computed with NumPy from the Jacobians]: 800
// m at 040, 600 at 110, 500 at 020; start 10 m; 5 % and 3 degrees by leg, 4 % and 1.5 degrees
// shared.
TEST(DeadReckoning, SharedErrorsActOnTheNetDisplacement) {
  Drift drift(example_errors(), 0, {100, 0, 100});
  struct Row {
    double bearing, length, east, north, ee, en, nn, major, minor, azimuth;
  };
  for (const Row& r :
       {Row{40, 800, 514.2301, 612.8356, 2471.223, 212.105, 2546.023, 52.192, 47.888, 40.000},
        Row{110, 600, 1078.0457, 407.6235, 4674.267, 353.738, 3803.062, 69.281, 60.643, 70.461},
        Row{20, 500, 1249.0557, 877.4698, 6403.160, 934.837, 5673.956, 83.917, 70.959, 55.653}}) {
    drift.add_leg(units::GridBearing::degrees(r.bearing), r.length);
    EXPECT_NEAR(drift.net().east_m, r.east, 5e-5);
    EXPECT_NEAR(drift.net().north_m, r.north, 5e-5);
    const Covariance c = drift.total();
    EXPECT_NEAR(c.xx, r.ee, 5e-4);
    EXPECT_NEAR(c.xy, r.en, 5e-4);
    EXPECT_NEAR(c.yy, r.nn, 5e-4);
    EXPECT_NEAR(axes_of(c).major, r.major, 5e-4);
    EXPECT_NEAR(axes_of(c).minor, r.minor, 5e-4);
    EXPECT_NEAR(axes_of(c).azimuth / degree, r.azimuth, 5e-4);
  }
  EXPECT_NEAR(drift.independent_part().trace(), 6551.946, 5e-4);
  EXPECT_NEAR(drift.shared_part().trace(), 5325.170, 5e-4);
  EXPECT_NEAR(drift.shared_part().xx, 3023.942, 5e-4);
  EXPECT_NEAR(drift.shared_part().xy, 1002.421, 5e-4);
  // taken as independent per leg: 2856.736, 46 % too little
  const double per_leg =
      (800.0 * 800 + 600.0 * 600 + 500.0 * 500) * (0.04 * 0.04 + 1.5 * degree * 1.5 * degree);
  EXPECT_NEAR(per_leg, 2856.736, 5e-4);
}

// Ten sightings of 100 m, 3 degrees each: cross 16.56 m; one 3-degree error over 1000 m: 52.36 m
// [computed by hand from the sum of squares].
TEST(DeadReckoning, ReSightingAgainstOneBearing) {
  Errors e;
  e.sighting_sigma = 3 * degree;
  e.sighting_every_m = 100;
  EXPECT_NEAR(std::sqrt(leg_spread(e, 1000).cross_m2), 16.56, 5e-3);
  e.sighting_sigma = 0;
  e.bearing_sigma = 3 * degree;
  EXPECT_NEAR(std::sqrt(leg_spread(e, 1000).cross_m2), 52.36, 5e-3);
}

TEST(DeadReckoning, ALegShorterThanASightingIsOneSighting) {
  Errors e;
  e.sighting_sigma = 2 * degree;
  e.sighting_every_m = 150;
  EXPECT_NEAR(std::sqrt(leg_spread(e, 60).cross_m2), 60 * 2 * degree, 1e-12);
}

TEST(DeadReckoning, ResetLeavesOnlyTheFix) {
  Drift drift(example_errors(), 0.01);
  drift.add_leg(on(1), 500);
  drift.reset({4, 1, 9});
  EXPECT_EQ(drift.total(), (Covariance{4, 1, 9}));
}

double bearing() { return *rc::gen::inRange(0, 3600) * 0.1 * degree; }
double metres() { return *rc::gen::inRange(50, 2000); }

RC_GTEST_PROP(DeadReckoning, CuttingAStraightLegInTwoChangesNothing, ()) {
  const double b = bearing(), whole = metres() + 400, part = 0.5 * whole;
  Errors e = example_errors();
  e.sighting_sigma = 0.05;
  e.distance_random = 0.3;
  Drift one(e, 0.005, {25, 0, 25}), two(e, 0.005, {25, 0, 25});
  one.add_leg(on(b), whole);
  two.add_leg(on(b), part);
  two.add_leg(on(b), whole - part);
  RC_ASSERT(std::abs(one.total().xx - two.total().xx) < 1e-6);
  RC_ASSERT(std::abs(one.total().xy - two.total().xy) < 1e-6);
  RC_ASSERT(std::abs(one.total().yy - two.total().yy) < 1e-6);
}

RC_GTEST_PROP(DeadReckoning, SharedErrorsCancelOnAClosedLoop, ()) {
  Drift drift(example_errors(), 0.01);
  earth::GridPoint at;
  const int legs = *rc::gen::inRange(2, 6);
  for (int i = 0; i < legs; ++i) {
    const double b = bearing(), l = metres();
    drift.add_leg(on(b), l);
    at = earth::step(at, units::GridBearing::degrees(b / degree), l);
  }
  drift.add_leg(on(std::atan2(-at.east_m, -at.north_m)), std::hypot(at.east_m, at.north_m));
  RC_ASSERT(drift.shared_part().trace() < 1e-6);
  RC_ASSERT(drift.independent_part().trace() > 1);
}

RC_GTEST_PROP(DeadReckoning, TurningTheMapTurnsTheEllipse, ()) {
  const double turn = bearing();
  Drift a(example_errors(), 0.01), b(example_errors(), 0.01);
  for (int i = 0; i < 3; ++i) {
    const double way = bearing(), l = metres();
    a.add_leg(on(way), l);
    b.add_leg(on(way + turn), l);
  }
  const double look = bearing();
  RC_ASSERT(std::abs(a.total().along(look) - b.total().along(look + turn)) <
            1e-6 * a.total().trace());
}

TEST(Defaults, OneSightingIsWhatTheTradeSays) {
  // "2 degrees sighted, 3-4 normal, 5 and more in the dark" [practice]
  const auto once = [](walking::Instrument i, walking::Skill s, mapdata::Visibility v) {
    walking::Party p;
    p.instrument = i;
    p.skill = s;
    p.visibility = v;
    const Errors e = errors_of(p);
    return std::hypot(e.bearing_sigma, e.sighting_sigma) / degree;
  };
  using enum walking::Instrument;
  EXPECT_NEAR(once(mirror, walking::Skill::practised, mapdata::Visibility::clear), 2, 0.2);
  EXPECT_NEAR(once(baseplate, walking::Skill::practised, mapdata::Visibility::clear), 3.5, 0.5);
  EXPECT_GE(once(baseplate, walking::Skill::practised, mapdata::Visibility::night), 5);
}

// A triangle's figure typed in says nothing of what its legs share.
TEST(Defaults, AStatedFigureDoesNotSilenceWhatLegsShare) {
  walking::Party p;
  p.errors.bearing_sigma_deg = 2;
  p.errors.distance_sigma = 0.05;
  const Errors e = errors_of(p);
  EXPECT_NEAR(e.bearing_sigma, 2 * degree, 1e-15);
  EXPECT_EQ(e.compass_sigma, errors_of({}).compass_sigma);
  EXPECT_EQ(e.stride_sigma, errors_of({}).stride_sigma);
  EXPECT_EQ(e.distance_random, 0);
  EXPECT_GT(e.sighting_sigma, 0);
  p.errors.compass_sigma_deg = 0.5;
  p.errors.stride_sigma = 0.01;
  EXPECT_NEAR(errors_of(p).compass_sigma, 0.5 * degree, 1e-15);
  EXPECT_NEAR(errors_of(p).stride_sigma, 0.01, 1e-15);
  p.errors.compass_sigma_deg = 60;
  EXPECT_FALSE(checked_errors_of(p));
}

TEST(Defaults, RefusesFiguresBeyondUse) {
  walking::Party p;
  p.errors.bearing_sigma_deg = 60;
  const auto r = checked_errors_of(p);
  ASSERT_FALSE(r);
  EXPECT_EQ(r.error().what, "bearing_sigma_deg: expected degrees, above 0, at most 45, got 60");
  p.errors.bearing_sigma_deg = std::nan("");
  EXPECT_TRUE(checked_errors_of(p));
}

// Less skill, worse weather and the simpler instrument never make a party surer.
TEST(Defaults, OrderedBySkillInstrumentAndWeather) {
  walking::Party p;
  for (const auto v :
       {mapdata::Visibility::clear, mapdata::Visibility::cloud, mapdata::Visibility::night}) {
    p.visibility = v;
    double last = 1e9;
    for (const auto s :
         {walking::Skill::novice, walking::Skill::practised, walking::Skill::expert}) {
      p.skill = s;
      const Spread spread = single_leg_spread(errors_of(p), 700);
      EXPECT_LT(spread.cross_m2 + spread.along_m2, last);
      last = spread.cross_m2 + spread.along_m2;
    }
  }
}
}  // namespace dead_reckoning_test
