// The doubt about a party as shapes: held against the covariances they are drawn from.
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/reckoning/judge/doubt_shape.hpp"

namespace doubt_growth_test {

using namespace lodeway;
using reckoning::JudgedLeg;

/// 1000 m to the east, its end known to 30 m along and 40 m across.
JudgedLeg eastward(bool fix) {
  JudgedLeg leg;
  leg.course.kind = walking::LegKind::bearing;
  leg.course.line = {{0, 0}, {1000, 0}};
  leg.judged.along_sigma_m = 30;
  leg.judged.cross_sigma_m = 40;
  leg.judged.at_end = {900, 0, 1600};
  leg.judged.fix_at_end = fix;
  return leg;
}

TEST(Doubt, GrowsFromTheStartToTheEnd) {
  const auto leg = eastward(true);
  const auto start = reckoning::doubt_at(leg, nullptr, 0, 5);
  const auto middle = reckoning::doubt_at(leg, nullptr, 0.5, 5);
  const auto end = reckoning::doubt_at(leg, nullptr, 1, 5);
  ASSERT_TRUE(start && middle && end);
  EXPECT_DOUBLE_EQ(start->along_m, 5);
  EXPECT_DOUBLE_EQ(start->cross_m, 5);
  EXPECT_DOUBLE_EQ(middle->along_m, 17.5);
  EXPECT_DOUBLE_EQ(middle->cross_m, 22.5);
  EXPECT_DOUBLE_EQ(end->along_m, 30);
  EXPECT_DOUBLE_EQ(end->cross_m, 40);
}

// What was along the leg before a right turn lies across the leg after it.
TEST(Doubt, IsTakenOverFromALegWithoutAFixInTheNewDirection) {
  const auto before = eastward(false);
  JudgedLeg north = eastward(true);
  north.course.line = {{1000, 0}, {1000, 500}};
  const auto start = reckoning::doubt_at(north, &before, 0, 5);
  ASSERT_TRUE(start);
  EXPECT_NEAR(start->along_m, 40, 1e-9);
  EXPECT_NEAR(start->cross_m, 30, 1e-9);
  EXPECT_DOUBLE_EQ(reckoning::doubt_at(north, &before, -3, 5)->along_m, start->along_m);
}

TEST(Doubt, OnALineThereIsNoneAcross) {
  auto leg = eastward(true);
  leg.course.kind = walking::LegKind::along;
  EXPECT_DOUBLE_EQ(reckoning::doubt_at(leg, nullptr, 1, 5)->cross_m, 0);
  leg.course.line = {{0, 0}};
  EXPECT_FALSE(reckoning::doubt_at(leg, nullptr, 1, 5));
}

// 60 m along an azimuth of 0.5 rad, 10 m across: 95 of 100 lie within sqrt(5.991) of each sigma
// (chi-square, two degrees of freedom).
TEST(Doubt, TheEllipseIsNotMirrored) {
  auto leg = eastward(true);
  leg.judged.at_end = numeric::covariance_along(0.5, 60.0 * 60.0, 10.0 * 10.0);
  const auto ring = reckoning::end_ellipse(leg);
  ASSERT_EQ(ring.size(), 48U);
  double far = 0, azimuth = 0;
  for (const auto& p : ring) {
    const double e = p.east_m - 1000, n = p.north_m, d = std::hypot(e, n);
    if (d <= far) continue;
    far = d;
    azimuth = std::atan2(e, n);
  }
  EXPECT_NEAR(far, std::sqrt(5.9915) * 60, 0.01);
  EXPECT_NEAR(std::remainder(azimuth - 0.5, 3.14159265358979), 0, 1e-9);
}

}  // namespace doubt_growth_test
