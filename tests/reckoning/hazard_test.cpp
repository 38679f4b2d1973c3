#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/ends/parallel_error.hpp"
#include "lodeway/reckoning/judge/hazard.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "made_ground.hpp"

namespace hazard_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using earth::GridPoint;
using numeric::normal_cdf;

/// 2 km square of 5 m cells about the origin; everything east of `edge` is forbidden from north =
/// 300 on.
Forbidden east_of(double edge) {
  Forbidden f(terrain::Frame{-1000, 1000, 5, 400, 400});
  for (int r = 0; r < 400; ++r)
    for (int c = 0; c < 400; ++c) {
      const auto p = f.frame().centre(r, c);
      f[r, c] = p.east_m > edge && p.north_m > 300 ? 1 : 0;
    }
  return f;
}

/// Going north from the origin, wrong in direction and count alone.
Walk north(double length, double angle_sigma, double scale_sigma = 0) {
  Walk walk{{0, 0}, {}, length, {}, 0, {0, length}};
  walk.growth.angle2 = angle_sigma * angle_sigma;
  walk.growth.scale2 = scale_sigma * scale_sigma;
  return walk;
}

// Going north 800 m with 0.05 rad: the edge at 60 m is 1.5 sigma at the end, and less likely met
// before.
TEST(Hazard, StraightEdgeIsTheTail) {
  EXPECT_NEAR(hazard_probability(HazardGround(east_of(60)), north(800, 0.05)), normal_cdf(-1.5),
              0.01);
}

TEST(Hazard, OvershootIsInIt) {
  Forbidden f(terrain::Frame{-1000, 2000, 5, 400, 400});
  for (int c = 0; c < 400; ++c)
    for (int r = 0; r < 200; ++r) f[r, c] = 1;  // north of 1000
  const HazardGround ground(f);
  // end at 900 seen within 45 m = 1 sigma; the rest go on 50 m, give or take 50 m: Phi(-1) of them
  auto walk = north(900, 0.05, 50.0 / 950);
  walk.beyond_m = 50;
  walk.seen_from_m = 45;
  walk.known = 1;
  const double missed = 2 * normal_cdf(-1);
  EXPECT_NEAR(hazard_probability(ground, walk), missed * normal_cdf(-1), 0.01);
  walk.known = 0.6;
  EXPECT_NEAR(hazard_probability(ground, walk), (missed + 0.4 * (1 - missed)) * normal_cdf(-1),
              0.01);
  const std::array<GridPoint, 2> wall{{{-900, 900}, {900, 900}}};
  walk.line = wall;
  walk.line_known = 1;
  EXPECT_EQ(hazard_probability(ground, walk), 0);
}

// A stream that the leg starts on and that bends back across the way holds up those who come to it
// again: left at the start is left there, not everywhere.
TEST(Hazard, ALineLeftAtTheStartIsMetAgain) {
  Forbidden f(terrain::Frame{-1000, 1000, 5, 400, 400});
  for (int c = 0; c < 400; ++c)
    for (int r = 0; r < 100; ++r) f[r, c] = 1;  // north of 500
  const HazardGround ground(f);
  auto walk = north(800, 0.03);
  const std::array<GridPoint, 5> bent{{{-900, 4}, {900, 4}, {900, 100}, {900, 450}, {-900, 450}}};
  walk.line = bent;
  walk.line_known = 0.75;
  walk.leaving_m = 15;
  EXPECT_NEAR(hazard_probability(ground, walk), 0.25, 1e-3);
  walk.line = std::span(bent).first(2);  // it does not come back
  EXPECT_NEAR(hazard_probability(ground, walk), 1, 1e-3);
}

TEST(Hazard, ClearIsNeverMoreThanTheDistance) {
  numeric::Random random(4);
  Forbidden f(terrain::Frame{0, 1000, 10, 100, 100});
  for (int i = 0; i < 12; ++i)
    f[static_cast<int>(100 * random.uniform()), static_cast<int>(100 * random.uniform())] = 1;
  const HazardGround ground(f);
  for (int i = 0; i < 300; ++i) {
    const GridPoint p{1200 * random.uniform() - 100, 1200 * random.uniform() - 100};
    double nearest = 1e9;  // to the cell's square
    for (int r = 0; r < 100; ++r)
      for (int c = 0; c < 100; ++c) {
        if (f[r, c] == 0) continue;
        const auto m = f.frame().centre(r, c);
        nearest = std::min(nearest, std::hypot(std::max(std::abs(p.east_m - m.east_m) - 5, 0.0),
                                               std::max(std::abs(p.north_m - m.north_m) - 5, 0.0)));
      }
    EXPECT_LE(ground.clear_m(p), nearest + 1e-9);
    EXPECT_EQ(ground.clear_m(p) < 0, nearest == 0 && f.frame().contains(p));
    if (!f.frame().contains(p)) continue;
    EXPECT_GE(ground.clear_m(p), (nearest - 15) / 1.0834 - 1e-9);
  }
}

// Start, direction, wandering and count all uncertain, a pond beside the way: against 200 000 plain
// walkers, who are drawn here and walk in the law's own steps.
TEST(Hazard, AgainstPlainWalkers) {
  numeric::Random random(9);
  for (int n = 0; n < 6; ++n) {
    Forbidden f(terrain::Frame{-1000, 1000, 5, 400, 400});
    const double east = 20 + 60 * random.uniform(), at = 60 + 300 * random.uniform(),
                 size = 20 + 50 * random.uniform();
    for (int r = 0; r < 400; ++r)
      for (int c = 0; c < 400; ++c)
        f[r, c] = earth::grid_distance_m(f.frame().centre(r, c), {east, at}) < size ? 1 : 0;
    Walk walk = north(150 + 300 * random.uniform(), 0.03 + 0.05 * random.uniform(), 0.05);
    const double start = 10 + 40 * random.uniform();
    walk.growth.start_cross_m2 = start * start;
    walk.growth.start_along_m2 = 0.25 * start * start;
    walk.growth.start_both_m2 = 0.2 * start * start;
    walk.growth.wander_m = 50 * 0.06 * 0.06;
    walk.growth.step_m = 0.1;
    walk.beyond_m = 30;
    const double told = hazard_probability(HazardGround(f), walk);
    constexpr int walkers = 50000;
    constexpr double step = 2.5;
    int trod = 0;
    for (int i = 0; i < walkers; ++i) {
      const double a = random.normal(), b = 0.4 * a + std::sqrt(1 - 0.16) * random.normal();
      GridPoint p{start * a, 0.5 * start * b};
      const double angle = std::sqrt(walk.growth.angle2) * random.normal();
      const double reach = walk.length_m + walk.beyond_m;
      const double real = reach + std::sqrt(walk.growth.count_m2(reach)) * random.normal();
      double heading = 0;
      int k = 0;
      for (double d = 0; d < real; d += step, ++k) {
        if (k % 20 == 0) heading = angle + 0.06 * random.normal();  // a sighting of 50 m
        p = p + step * GridPoint{std::sin(heading), std::cos(heading)};
        const auto [row, col] = f.frame().cell_of(p);
        if (f.frame().holds(row, col) && f[row, col] != 0) {
          ++trod;
          break;
        }
      }
    }
    const double met = static_cast<double>(trod) / walkers;
    EXPECT_NEAR(told, met, 3 * std::sqrt(met * (1 - met) / walkers) + 0.02) << n;
  }
}

RC_GTEST_PROP(Hazard, MoreForbiddenGroundIsNeverLess, ()) {
  const double edge = *rc::gen::inRange(10, 200);
  auto walk = north(800, 0.01 * *rc::gen::inRange(1, 12), 0.05);
  walk.beyond_m = 80;
  walk.seen_from_m = 30;
  walk.known = 0.9;
  RC_ASSERT(hazard_probability(HazardGround(east_of(edge - 10)), walk) >=
            hazard_probability(HazardGround(east_of(edge)), walk) - 1e-9);
}

/// Over all counts: what is decided at each, in `steps` of it up to `far` sigmas.
double taken_in_all(const Decoy& d, int steps = 4000, double far = 8) {
  double sum = 0;
  for (int i = 0; i < steps; ++i) {
    const double low = -far + 2 * far * i / steps, high = low + 2 * far / steps;
    sum += (normal_cdf(high) - normal_cdf(low)) *
           taken_at_count(d, 0.5 * (low + high) * d.along_sigma_m, far / steps * d.along_sigma_m);
  }
  return sum;
}

// Equal priors, one kind and lie: Phi(-|L - d'| / (2 sigma)); 100 m apart at sigma 50 is Phi(-1) =
// 0.1587.
TEST(ParallelError, EqualPriors) {
  EXPECT_NEAR(taken_in_all({100, 50}), 0.1587, 5e-5);
  EXPECT_NEAR(taken_in_all({0, 50}), 0.5, 1e-12);
  EXPECT_NEAR(taken_in_all({100, 50, 0, 10, 0.3}), 0.3 * 0.1587, 5e-5);
  // a lie 20 degrees apart read to 10: d = sqrt(4 + 4), Phi(-sqrt 2) = 0.0786 (standard table)
  EXPECT_NEAR(taken_in_all({100, 50, 20, 10}), 0.0786, 5e-5);
}

// By integration of the decision itself: taken for the target where its weighed density is larger.
TEST(ParallelError, UnequalPriorsByDirectIntegration) {
  const double apart = 90, sigma = 60, ratio = 3;
  double taken = 0;
  for (double m = -600; m < 800; m += 0.01) {
    const double decoy = numeric::normal_density(m / sigma),
                 target = numeric::normal_density((m - apart) / sigma);
    if (ratio * target > decoy) taken += decoy / sigma * 0.01;
  }
  EXPECT_NEAR(taken_in_all({apart, sigma, 0, 10, 1, ratio}), taken, 1e-4);
}

// As few steps as the judge of a leg takes (24 within 4 sigmas) against the closed form:
// looks_alike Phi(-(d/2 - ln(prior) / d)), d^2 = (apart / sigma)^2 + (lie / lie_sigma)^2 (Neyman &
// Pearson 1933: the likelihood-ratio test of two normals).
TEST(ParallelError, StepsOfTheCountAddUpToTheClosedForm) {
  for (const Decoy& d : {Decoy{90, 60}, Decoy{90, 60, 12, 10, 0.4}, Decoy{40, 30, 25, 10, 1, 2},
                         Decoy{60, 60, 0, 10, 1, 3}}) {
    const double apart = std::hypot(d.apart_m / d.along_sigma_m, d.lie_apart_deg / d.lie_sigma_deg);
    const double closed =
        d.looks_alike * normal_cdf(-(0.5 * apart - std::log(d.prior_ratio) / apart));
    EXPECT_NEAR(taken_in_all(d, 24, 4), closed, 3e-3);
    EXPECT_NEAR(taken_in_all(d), closed, 1e-5);
  }
}

RC_GTEST_PROP(ParallelError, SurerDistanceIsNeverWorse, ()) {
  const double apart = *rc::gen::inRange(10, 400), sigma = *rc::gen::inRange(5, 100);
  RC_ASSERT(taken_in_all({apart, sigma}) <= taken_in_all({apart, sigma * 1.2}) + 1e-12);
}

TEST(Handrail, CuttingALegInTwoKeepsTheLineAsOften) {
  EXPECT_NEAR(keeps_line(0.98, 1000), 0.98, 1e-12);
  EXPECT_NEAR(keeps_line(0.98, 2500), 0.9507, 5e-5);  // 0.98^2.5
  EXPECT_NEAR(keeps_line(0.9, 300) * keeps_line(0.9, 900), keeps_line(0.9, 1200), 1e-12);
  EXPECT_LT(keeps_line(0.8, 700), keeps_line(0.9, 700));
}

// By hand: a practised party in cloud on a path looks 0.96 of the time and then knows the branch
// 0.97. Two arms straight on: (2 x 0.96 x 0.03 + 0.04) / 2 = 0.0488 go wrong. An arm square off
// weighs ((1 + 0) / 2)^2 = 0.25: 0.0976 x 0.25 / 1.25 = 0.01952. Where the right one turns off by a
// right angle and the other goes straight on it is the other way about: 0.0976 x 1 / 1.25.
TEST(Handrail, Branches) {
  EXPECT_NEAR(straightness(1), 1, 1e-12);
  EXPECT_NEAR(straightness(0), 0.25, 1e-12);
  EXPECT_NEAR(straightness(-1), 0.02, 1e-12);
  EXPECT_NEAR(1 - takes_right_branch(0.96, 0.97, {1, 1}), 0.0488, 1e-12);
  EXPECT_NEAR(1 - takes_right_branch(0.96, 0.97, {1, 0.25}), 0.01952, 1e-12);
  EXPECT_NEAR(1 - takes_right_branch(0.96, 0.97, {0.25, 1}), 0.07808, 1e-12);
  EXPECT_EQ(takes_right_branch(0.5, 0.5, {1, 0}), 1);
}
// What the party may not enter is ground to keep off: a lake is, land and heights that are not
// known are not.
TEST(Hazard, WhatBarsThePartyIsForbidden) {
  auto g = made::ground();
  g.map.areas.push_back(
      {{made::Kind::lake, ""}, {{100, 100}, {300, 100}, {300, 300}, {100, 300}}, {}});
  g.elevation[150, 150] = NAN;
  const auto forbidden = forbidden_of(walking::Cover(g, walking::Request{}));
  const auto at = [&](double east, double north) {
    return forbidden[static_cast<int>((2000 - north) / 20), static_cast<int>((east + 2000) / 20)];
  };
  EXPECT_EQ(at(210, 210), 1);
  EXPECT_EQ(at(-210, 210), 0);
  EXPECT_EQ((forbidden[150, 150]), 0);
}
}  // namespace hazard_test
