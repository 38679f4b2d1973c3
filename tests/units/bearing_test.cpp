#include "lodeway/units/bearing.hpp"

#include <cmath>
#include <concepts>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"

namespace lodeway::units {
namespace {

// What must not be possible; tests/must_not_compile proves the same with the compiler's own words.
template <class A, class B>
concept has_difference = requires(A a, B b) { a - b; };
static_assert(has_difference<GridBearing, GridBearing>);
static_assert(!has_difference<MagneticBearing, GridBearing>);
static_assert(!has_difference<TrueBearing, GridBearing>);
template <class... T>
concept has_magnetic = requires(T... t) { to_magnetic(t...); };
static_assert(has_magnetic<GridBearing, Convergence, Declination>);
static_assert(!has_magnetic<GridBearing, Declination, Convergence>);
static_assert(!has_magnetic<MagneticBearing, Convergence, Declination>);
static_assert(!has_magnetic<TrueBearing, Convergence>);
static_assert(!std::convertible_to<double, Angle> && !std::constructible_from<Angle, double>);
static_assert(!std::convertible_to<double, GridBearing> &&
              !std::constructible_from<GridBearing, double>);
static_assert(!std::convertible_to<Angle, Declination> && !std::convertible_to<Angle, Convergence>);
static_assert(!std::convertible_to<GridBearing, MagneticBearing>);

// Declination from npm geomagnetism 0.2.0 (WMM2025, epoch 2026.0), convergence from
// GeographicLib 2.1.2 `GeoConvert -c`; true = grid + convergence, magnetic = true - declination (by
// definition).
TEST(Norths, WorkedPlaces) {
  struct Row {
    double declination, convergence, grid_magnetic, true_090, magnetic_090;
  };
  for (const Row& r :
       {Row{3.397, -0.722, 4.119, 89.278, 85.881}, Row{2.697, -3.199, 5.896, 86.801, 84.104},
        Row{2.697, 2.019, 0.678, 92.019, 89.322}, Row{-0.447, -0.860, 0.413, 89.140, 89.587},
        Row{1.120, 2.347, -1.227, 92.347, 91.227}, Row{7.716, -0.161, 7.877, 89.839, 82.123},
        Row{12.393, -1.588, 13.981, 88.412, 76.019}, Row{24.266, 0.592, 23.674, 90.592, 66.326}}) {
    const Convergence c{Angle::degrees(r.convergence)};
    const Declination d{Angle::degrees(r.declination)};
    const auto grid = GridBearing::degrees(90);
    EXPECT_NEAR(grid_magnetic_angle(c, d).in_degrees(), r.grid_magnetic, 1e-12);
    EXPECT_NEAR(to_true(grid, c).in_degrees(), r.true_090, 1e-12);
    EXPECT_NEAR(to_magnetic(grid, c, d).in_degrees(), r.magnetic_090, 1e-12);
    EXPECT_NEAR(to_magnetic(to_true(grid, c), d).in_degrees(), r.magnetic_090, 1e-12);
    EXPECT_NEAR((grid + -grid_magnetic_angle(c, d)).in_degrees(), r.magnetic_090, 1e-12);
  }
}

TEST(Norths, ThereAndBack) {
  numeric::Random random(7);
  for (int i = 0; i < 1000; ++i) {
    const auto b = GridBearing::degrees(-720 + 1440 * random.uniform());
    const Convergence c{Angle::degrees(-10 + 20 * random.uniform())};
    const Declination d{Angle::degrees(-180 + 360 * random.uniform())};
    EXPECT_NEAR((to_grid(to_true(b, c), c) - b).in_degrees(), 0, 1e-12);
    EXPECT_NEAR((to_grid(to_magnetic(b, c, d), c, d) - b).in_degrees(), 0, 1e-12);
    EXPECT_NEAR((b.back().back() - b).in_degrees(), 0, 1e-12);
    EXPECT_NEAR(std::abs((b.back() - b).in_degrees()), 180, 1e-12);
  }
}

TEST(Bearings, StayWithinATurn) {
  for (const double d :
       {0.0, -1e-20, 360.0, -360.0, 720.0, 359.9999999999999999, -1e-300, 1e15, -1e15}) {
    const double b = GridBearing::degrees(d).in_degrees();
    EXPECT_GE(b, 0) << d;
    EXPECT_LT(b, 360) << d;
  }
  EXPECT_EQ(GridBearing::degrees(-90).in_degrees(), 270);
  EXPECT_TRUE(
      std::isnan(GridBearing::degrees(std::numeric_limits<double>::quiet_NaN()).in_degrees()));
}

TEST(Bearings, TheShorterTurn) {
  EXPECT_EQ((GridBearing::degrees(10) - GridBearing::degrees(350)).in_degrees(), 20);
  EXPECT_EQ((GridBearing::degrees(350) - GridBearing::degrees(10)).in_degrees(), -20);
}

// 6400 mils a turn, by definition: 1 mil is 0.05625 degrees.
TEST(Angles, Mils) {
  EXPECT_EQ(Angle::mils(1600).in_degrees(), 90);
  EXPECT_EQ(Angle::mils(1).in_degrees(), 0.05625);
  EXPECT_EQ(Angle::degrees(180).in_mils(), 3200);
}

}  // namespace
}  // namespace lodeway::units
