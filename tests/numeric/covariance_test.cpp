#include "lodeway/numeric/covariance.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

namespace {
using namespace lodeway::numeric;
constexpr double degrees = std::numbers::pi / 180;

// Computed with NumPy: C = [[5287.229, -2192.777], [-2192.777, 5586.081]],
// axes 87.3757 and 56.9104 m, major axis at 136.949 degrees.
TEST(Covariance, AxesOfTheResectionExample) {
  const Axes a = axes_of({5287.229, -2192.777, 5586.081});
  EXPECT_NEAR(a.major, 87.3757, 5e-5);
  EXPECT_NEAR(a.minor, 56.9104, 5e-5);
  EXPECT_NEAR(a.azimuth / degrees, 136.949, 5e-4);
}

TEST(Covariance, CircleAndPoint) {
  EXPECT_EQ(axes_of({4, 0, 4}).azimuth, 0);
  EXPECT_EQ(axes_of({4, 0, 4}).minor, 2);
  EXPECT_EQ(axes_of({}).major, 0);
}

RC_GTEST_PROP(Covariance, AxesRebuildTheMatrix, ()) {
  const double azimuth = *rc::gen::inRange(0, 179) * degrees + 0.001;
  const double a = *rc::gen::inRange(1, 1000), b = *rc::gen::inRange(1, 1000);
  const Covariance c = covariance_along(azimuth, a * a, b * b);
  RC_ASSERT(std::abs(c.along(azimuth) - a * a) < 1e-9 * (a * a + b * b));
  RC_ASSERT(std::abs(c.along_with_right(azimuth)) < 1e-9 * (a * a + b * b));
  const Axes axes = axes_of(c);
  RC_ASSERT(std::abs(axes.major - std::max(a, b)) < 1e-9 * std::max(a, b));
  const Covariance back =
      covariance_along(axes.azimuth, axes.major * axes.major, axes.minor * axes.minor);
  RC_ASSERT(std::abs(back.xx - c.xx) + std::abs(back.xy - c.xy) + std::abs(back.yy - c.yy) <
            1e-8 * (a * a + b * b));
}
}  // namespace
