#include "lodeway/reckoning/judge/single_leg.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace single_leg_test {
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

struct Counted {
  double right = 0, wrong = 0, never = 0;
};

/// Walkers one by one, sighting by sighting, at a straight line: no formula of the program's.
Counted walked(const SingleLeg& leg, double aim_off, double gives_up_beyond, int walkers) {
  std::mt19937_64 random(14);
  std::normal_distribution<double> normal;
  const double phi = *leg.crossing_angle_rad;
  const double ax = -aim_off * std::sin(phi), ay = leg.length_m - aim_off * std::cos(phi);
  const double length = std::hypot(ax, ay), toward = std::atan2(ax, ay);
  Counted out;
  for (int w = 0; w < walkers; ++w) {
    const double turned =
        toward + std::hypot(leg.errors.bearing_sigma, leg.errors.compass_sigma) * normal(random);
    const double scale =
        1 + std::hypot(leg.errors.distance_sigma, leg.errors.stride_sigma) * normal(random);
    // counted distance runs with the scale; the random part of it grows with the root
    const double goes = (length + gives_up_beyond) * scale + std::sqrt(length + gives_up_beyond) *
                                                                 leg.errors.distance_random *
                                                                 normal(random);
    double x = 0, y = 0, gone = 0;
    bool met = false;
    while (gone < goes && !met) {
      const double step = std::min(leg.errors.sighting_every_m, goes - gone);
      const double way = turned + leg.errors.sighting_sigma * normal(random);
      const double nx = x + step * std::sin(way), ny = y + step * std::cos(way);
      // beyond the line when to its left: the line runs (sin phi, cos phi) through (0, length)
      const auto beyond = [&](double px, double py) {
        return std::sin(phi) * (py - leg.length_m) - std::cos(phi) * px;
      };
      if (beyond(nx, ny) >= 0) {
        const double t = beyond(x, y) / (beyond(x, y) - beyond(nx, ny));
        const double at =
            (x + t * (nx - x)) * std::sin(phi) + (y + t * (ny - y) - leg.length_m) * std::cos(phi);
        (at > 0 ? out.wrong : out.right) += 1.0 / walkers;
        met = true;
      }
      x = nx, y = ny, gone += step;
    }
    out.never += met ? 0 : 1.0 / walkers;
  }
  return out;
}

// Oblique, long, in every sort of weather: what becomes of 40 000 walkers. Three standard errors,
// and 0.01 for what a fan of straight rays is not: a walker's line bends from sighting to sighting.
TEST(SingleLeg, WhoNeverMeetsTheLineIsCounted) {
  for (const double angle : {25.0, 40.0, 60.0, 90.0}) {
    for (const double length : {400.0, 2000.0}) {
      for (const auto seen : {mapdata::Visibility::clear, mapdata::Visibility::cloud}) {
        walking::Party party;
        party.visibility = seen;
        party.skill = walking::Skill::novice;
        SingleLeg leg;
        leg.length_m = length;
        leg.errors = errors_of(party);
        leg.crossing_angle_rad = angle * degree;
        const auto a = *reckon_leg(leg);
        const int n = 40'000;
        const auto counted = walked(leg, a.aim_off_m, a.gives_up_beyond_m, n);
        const auto within = [&](double p) { return 0.01 + 3 * std::sqrt(p * (1 - p) / n); };
        EXPECT_NEAR(a.never_met_probability, counted.never, within(counted.never))
            << angle << " " << length;
        EXPECT_NEAR(a.wrong_side_probability, counted.wrong, within(counted.wrong))
            << angle << " " << length;
        EXPECT_NEAR(a.certainty, counted.right, within(counted.right)) << angle << " " << length;
      }
    }
  }
}

// The more oblique, the farther one must go on before the line can be given up.
TEST(SingleLeg, GoingOnGrowsWithTheAngle) {
  SingleLeg leg;
  leg.length_m = 1000;
  leg.errors = errors_of({});
  double last = 1e9;
  for (const double angle : {20.0, 35.0, 50.0, 70.0}) {
    leg.crossing_angle_rad = angle * degree;
    const double on = reckon_leg(leg)->gives_up_beyond_m;
    EXPECT_LT(on, last) << angle;
    last = on;
  }
}

// Under 10 degrees a party walks beside the line: it is no catching feature, and no figures are made
// up. From there on, whatever is answered, at least half meet it.
TEST(SingleLeg, ALineBesideTheLegCatchesNobody) {
  for (const auto skill : {walking::Skill::novice, walking::Skill::expert}) {
    walking::Party party;
    party.visibility = mapdata::Visibility::cloud;
    party.skill = skill;
    for (const double length : {200.0, 800.0, 2000.0}) {
      SingleLeg leg;
      leg.length_m = length;
      leg.errors = errors_of(party);
      for (double angle = 0.5; angle <= 90; angle += 0.5) {
        leg.crossing_angle_rad = angle * degree;
        const auto a = *reckon_leg(leg);
        if (angle < 10) {
          EXPECT_FALSE(a.catches) << angle;
        } else if (angle >= 20) {
          EXPECT_TRUE(a.catches) << angle << " " << length;
        }
        if (a.catches) {
          EXPECT_LT(a.never_met_probability, 0.5) << angle << " " << length;
        }
      }
    }
  }
}
}  // namespace single_leg_test
