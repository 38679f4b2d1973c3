#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/handrail.hpp"
#include "lodeway/reckoning/hazard.hpp"
#include "lodeway/reckoning/parallel_error.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::reckoning;
using numeric::normal_cdf;

/// 2 km square of 5 m cells about the origin; everything east of `edge` is forbidden from north = 300 on.
Forbidden east_of(double edge) {
  Forbidden f(terrain::Frame{-1000, 1000, 5, 400, 400});
  for (int r = 0; r < 400; ++r)
    for (int c = 0; c < 400; ++c) {
      const auto p = f.frame().centre(r, c);
      f[r, c] = p.east_m > edge && p.north_m > 300 ? 1 : 0;
    }
  return f;
}

// Going north 800 m with 0.05 rad: the edge at 60 m is 1.5 sigma at the end, and less likely met before.
TEST(Hazard, StraightEdgeIsTheTail) {
  EXPECT_NEAR(hazard_probability(east_of(60), {{0, 0}, 0, 800, 0.05, 40, 0, 0}), normal_cdf(-1.5), 0.01);
}

TEST(Hazard, OvershootIsInIt) {
  Forbidden f(terrain::Frame{-1000, 2000, 5, 400, 400});
  for (int c = 0; c < 400; ++c)
    for (int r = 0; r < 200; ++r) f[r, c] = 1;  // north of 1000
  // end at 900 seen within 45 m = 1 sigma; the rest go on 50 m and 50 m sigma: half of them
  const double missed = 2 * normal_cdf(-1);
  EXPECT_NEAR(hazard_probability(f, {{0, 0}, 0, 900, 0.05, 50, 50, 45}), missed * normal_cdf(-1), 0.01);
  EXPECT_EQ(hazard_probability(f, {{0, 0}, 0, 900, 0.05, 50, 50, 0}), 0);
}

RC_GTEST_PROP(Hazard, MoreForbiddenGroundIsNeverLess, ()) {
  const double edge = *rc::gen::inRange(10, 200);
  const Walk walk{{0, 0}, 0, 800, 0.01 * *rc::gen::inRange(1, 12), 40, 80, 30};
  RC_ASSERT(hazard_probability(east_of(edge - 10), walk) >= hazard_probability(east_of(edge), walk));
}

// Equal priors, one kind and lie: Phi(-|L - d'| / (2 sigma)); 100 m apart at sigma 50 is Phi(-1) = 0.1587.
TEST(ParallelError, EqualPriors) {
  EXPECT_NEAR(mistaken_for_target({100, 50}), 0.1587, 5e-5);
  EXPECT_NEAR(mistaken_for_target({0, 50}), 0.5, 1e-12);
  EXPECT_NEAR(mistaken_for_target({100, 50, 0, 10, 0.3}), 0.3 * 0.1587, 5e-5);
  // a lie 20 degrees apart read to 10: d = sqrt(4 + 4), Phi(-sqrt 2) = 0.0786 (standard table)
  EXPECT_NEAR(mistaken_for_target({100, 50, 20, 10}), 0.0786, 5e-5);
}

// By integration of the decision itself: taken for the target where its weighed density is larger.
TEST(ParallelError, UnequalPriorsByDirectIntegration) {
  const double apart = 90, sigma = 60, ratio = 3;
  double taken = 0;
  for (double m = -600; m < 800; m += 0.01) {
    const double decoy = numeric::normal_density(m / sigma), target = numeric::normal_density((m - apart) / sigma);
    if (ratio * target > decoy) taken += decoy / sigma * 0.01;
  }
  EXPECT_NEAR(mistaken_for_target({apart, sigma, 0, 10, 1, ratio}), taken, 1e-4);
}

RC_GTEST_PROP(ParallelError, SurerDistanceIsNeverWorse, ()) {
  const double apart = *rc::gen::inRange(10, 400), sigma = *rc::gen::inRange(5, 100);
  RC_ASSERT(mistaken_for_target({apart, sigma}) <= mistaken_for_target({apart, sigma * 1.2}) + 1e-12);
}

TEST(Handrail, CuttingALegInTwoKeepsTheLineAsOften) {
  mapdata::KindTraits t;
  t.recognised = {0.98, 0.9, 0.8, 0.5};
  using enum mapdata::Visibility;
  EXPECT_NEAR(keeps_line(t, cloud, 4000), 0.9, 1e-12);
  EXPECT_NEAR(keeps_line(t, cloud, 300) * keeps_line(t, cloud, 900), keeps_line(t, cloud, 1200), 1e-12);
  EXPECT_LT(keeps_line(t, night, 700), keeps_line(t, clear, 700));
}

TEST(Handrail, BranchesAndEnds) {
  using enum mapdata::Visibility;
  EXPECT_NEAR(takes_right_branch(clear, 0), 0.98, 1e-12);
  EXPECT_NEAR(takes_right_branch(clear, 180), 1, 1e-12);
  EXPECT_NEAR(stops_at_end(25, 0, 25), 0.6827, 5e-5);
  EXPECT_NEAR(stops_at_end(25, 0.9, 25), 0.9 + 0.1 * 0.6827, 5e-5);
}
}  // namespace
