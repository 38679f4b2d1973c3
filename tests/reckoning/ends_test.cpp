/// Closed forms of the ends of legs against SciPy's direct integration.
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/ends/aiming_off.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "support/support.hpp"

namespace ends_test {
using namespace lodeway;
using namespace lodeway::reckoning;
constexpr double degree = std::numbers::pi / 180;

TEST(PointTarget, IsSciPys) {  // tests/published/reckoning/SOURCE.md
  const auto rows = support::read_table("reckoning/point.csv");
  ASSERT_EQ(rows.size(), 6U);
  for (const auto& r : rows)
    EXPECT_NEAR(sees_before_giving_up({r[0], r[1], r[2]}, r[3], r[4], r[5]), r[6], 1e-9);
}

// 50 m at sigma 87: 0.4345 [computed with SciPy]; within one and two sigmas 0.6827 and 0.9545.
TEST(PointTarget, PassesWithin) {
  EXPECT_NEAR(passes_within(87, 0, 50), 0.4345, 5e-5);
  EXPECT_NEAR(passes_within(10, 0, 10), 0.6827, 5e-5);
  EXPECT_NEAR(passes_within(10, 0, 20), 0.9545, 5e-5);
  EXPECT_EQ(passes_within(0, 5, 10), 1);
  EXPECT_EQ(passes_within(0, 15, 10), 0);
}

TEST(PointTarget, NeverGivingUpIsPassing) {
  EXPECT_NEAR(sees_before_giving_up({30, 40, 0.4}, 20, 35, 1e6), passes_within(30, 20, 35), 1e-9);
}

RC_GTEST_PROP(PointTarget, MoreErrorIsNeverSurer, ()) {
  const double c = *rc::gen::inRange(1, 200), a = *rc::gen::inRange(1, 200);
  const double r = *rc::gen::inRange(5, 150), more = 1 + *rc::gen::inRange(1, 100) / 100.0;
  const double here = sees_before_giving_up({c, a, 0}, 0, r, 2 * a);
  RC_ASSERT(sees_before_giving_up({c * more, a, 0}, 0, r, 2 * a) <= here + 1e-9);
  RC_ASSERT(sees_before_giving_up({c, a * more, 0}, 0, r, 2 * a) <= here + 1e-9);
  RC_ASSERT(sees_before_giving_up({c, a, 0}, 0.3 * r, r, 2 * a) <= here + 1e-9);
}

// Wrong side at k sigma is Phi(-k): 0.1587, 0.0500, 0.0228, 0.0100, 0.0013 [computed with SciPy].
TEST(AimingOff, WrongSideIsTheNormalTail) {
  for (const auto& [k, p] :
       {std::pair{1.0, 0.1587}, {1.645, 0.0500}, {2.0, 0.0228}, {2.326, 0.0100}, {3.0, 0.0013}})
    EXPECT_NEAR(numeric::normal_cdf(-k), p, 5e-5);
}

TEST(AimingOff, MinutesAndBestOffsetAreSciPys) {
  const auto rows = support::read_table("reckoning/aiming.csv");
  ASSERT_EQ(rows.size(), 4U);
  for (const auto& r : rows) {
    const AimCosts costs{r[3], r[4], r[5], r[6]};
    EXPECT_NEAR(aimed_minutes(r[0], r[1] * degree, r[2], r[2], costs), r[7], 1e-9);
    const Aim aim = best_aim(r[0], r[1] * degree, r[2], costs);
    EXPECT_NEAR(aim.offset_m, r[8], 2e-3 * r[2]);
    EXPECT_NEAR(aim.minutes, r[9], 1e-5);
    EXPECT_GE(aim.saving_min, 0);
  }
}

RC_GTEST_PROP(AimingOff, MoreDoubtAimsFurtherOff, ()) {
  const double sigma = *rc::gen::inRange(5, 150), length = *rc::gen::inRange(200, 2000);
  const double doubt = *rc::gen::inRange(0, 30);
  const Aim less = best_aim(length, 1.2, sigma, {0.015, 0.015, doubt, 2});
  const Aim more = best_aim(length, 1.2, sigma, {0.015, 0.015, doubt + 5, 2});
  RC_ASSERT(more.offset_m >= less.offset_m - 0.002 * sigma);
  RC_ASSERT(more.wrong_side_probability <= less.wrong_side_probability + 1e-3);
}

TEST(AimingOff, LineSigma) {
  EXPECT_NEAR(line_sigma(20, 90 * degree), 20, 1e-12);
  EXPECT_NEAR(line_sigma(20, 30 * degree), 40, 1e-12);
}
}  // namespace ends_test
