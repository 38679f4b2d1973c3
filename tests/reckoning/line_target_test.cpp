/// Rays against lines: the straight line's closed form, ends, corners, mirrors, and a plain
/// simulation.
#include "lodeway/reckoning/ends/line_target.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/numeric/statistics.hpp"
#include "lodeway/reckoning/ends/aimed_leg.hpp"

namespace line_target_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using earth::GridPoint;
using numeric::normal_cdf;
using Line = std::vector<GridPoint>;
constexpr double degree = std::numbers::pi / 180;

Ray cast_ray(GridPoint from, double angle, const Line& line, double reach) {
  return LineCaster(from, angle, 0, pieces_within(line, from, reach), reach).cast(angle);
}
AimedLeg best_aimed_leg(const LineEnd& end, const AimCosts& costs) {
  return LineAimer(end, costs).best();
}
AimedLeg aimed_leg(const LineEnd& end, double offset, const AimCosts& costs) {
  return LineAimer(end, costs, std::abs(offset)).aimed(offset, end.window_m);
}

/// Wrong in the direction alone.
CrossGrowth angle(double sigma) { return {sigma * sigma, 0, 0}; }
/// Cross and along sigma at the end of a leg, all of it growing with the distance.
LegGrowth at_end(double length, double cross, double along) {
  LegGrowth g;
  g.angle2 = cross * cross / (length * length);
  g.scale2 = along * along / (length * length);
  return g;
}

// The line north = 1000, met square on from the origin: along = east + 5000.
const Line across{{-5000, 1000}, {5000, 1000}};

// tan of a small angle: within 1e-3 the closed form Phi. Aimed 80 m ahead, sigma 40 m: Phi(2) and
// Phi(-2).
TEST(Fan, StraightLineIsTheNormal) {
  const Fan fan({0, 0}, 0, 0.4, across, 2000);
  const Meeting m = fan.meet(std::atan2(80, 1000), angle(0.04), 5000, 0, 1e9, 0);
  EXPECT_NEAR(m.ahead, normal_cdf(2), 1e-3);
  EXPECT_NEAR(m.before, normal_cdf(-2), 1e-3);
  EXPECT_NEAR(m.missed, 0, 1e-9);
  // E(X | X > 0) = (d Phi(d) + phi(d)) / Phi(d) sigma, d = 2
  EXPECT_NEAR(m.ahead_m, 40 * (2 * normal_cdf(2) + numeric::normal_density(2)) / normal_cdf(2),
              0.6);
}

TEST(Fan, WindowCountsAsFound) {
  const Meeting m = Fan({0, 0}, 0, 0.4, across, 2000).meet(0, angle(0.04), 5000, 40, 1e9, 0);
  EXPECT_NEAR(m.within, 0.6827, 1e-3);
  EXPECT_NEAR(m.ahead, 0.1587, 1e-3);
}

TEST(Fan, PastTheEndsIsMissed) {
  const Line piece{{-60, 1000}, {40, 1000}};  // -1.5 and +1 sigma at 40 m
  const Meeting m = Fan({0, 0}, 0, 0.4, piece, 2000).meet(0, angle(0.04), 60, 0, 1e9, 0);
  EXPECT_NEAR(m.missed, normal_cdf(-1.5) + normal_cdf(-1), 1e-3);
}

TEST(Fan, GivingUpBeforeTheLine) {
  const Meeting m = Fan({0, 0}, 0, 0.2, across, 2000).meet(0, angle(1e-6), 5000, 0, 1050, 50);
  EXPECT_NEAR(m.missed, normal_cdf(-1), 1e-4);
}

/// Where one walker's ray meets the line, by plain brute force.
bool brute(const Line& line, double angle, double& along) {
  double best = 1e18, done = 0;
  const GridPoint u{std::sin(angle), std::cos(angle)};
  for (std::size_t i = 1; i < line.size(); ++i) {
    const GridPoint a = line[i - 1], d = line[i] - a;
    const double length = std::hypot(d.east_m, d.north_m);
    const double det = u.north_m * d.east_m - u.east_m * d.north_m;
    const double r = (a.north_m * d.east_m - a.east_m * d.north_m) / det;
    const double t = (u.east_m * a.north_m - u.north_m * a.east_m) / det;
    if (t >= 0 && t <= 1 && r > 0.01 && r < best) {
      best = r;
      along = done + t * length;
    }
    done += length;
  }
  return best < 1e17;
}

// A line with a deep bay and an end, against 400 000 simulated walkers: within 3.5 standard errors
// + 1e-4.
TEST(Fan, CrookedLineAgainstSimulation) {
  const Line crooked{{-300, 950}, {-80, 1000}, {-60, 1300}, {20, 1350}, {25, 980}, {90, 1010}};
  const double aim = std::atan2(-20, 1000), sigma = 0.05, target = 900, window = 25;
  const Meeting m =
      Fan({0, 0}, 0, 0.4, crooked, 3000).meet(aim, angle(sigma), target, window, 1e9, 0);
  numeric::Random random(3);
  const std::size_t n = 400000;
  std::size_t ahead = 0, before = 0, within = 0;
  for (std::size_t i = 0; i < n; ++i) {
    double along = 0;
    if (!brute(crooked, aim + sigma * random.normal(), along)) continue;
    if (along > target + window)
      ++ahead;
    else if (along < target - window)
      ++before;
    else
      ++within;
  }
  const auto agrees = [&](double p, std::size_t hits) {
    EXPECT_NEAR(p, static_cast<double>(hits) / n, 3.5 * numeric::share_error(hits, n) + 1e-4);
  };
  agrees(m.ahead, ahead);
  agrees(m.before, before);
  agrees(m.within, within);
}

// A road that leaves the start beside the leg and bends back across it. An error of the start that
// leads to its near reach does not also lead to the far one: against 20 000 walkers whose place
// beside the aim grows with the distance, followed metre by metre. Within 0.01: pieces of a fan are
// straight between rays, and a far reach hidden behind a near one is not seen by a ray.
TEST(Fan, ALineThatAlsoRunsNearTheStartCountsOnce) {
  const Line road{{15, -20}, {60, 150}, {160, 420}, {120, 900}, {-400, 1000}};
  const CrossGrowth cross{0.05 * 0.05, 0.4, 15 * 15};
  const double aim = 0.02, target = mapdata::length_m(road) - 250, window = 40;
  const Meeting m = Fan({0, 0}, 0, 1.5, road, 3000, 5).meet(aim, cross, target, window, 1e9, 0);
  EXPECT_LE(m.ahead + m.within + m.before, 1 + 1e-9);
  numeric::Random random(5);
  const std::size_t n = 20000;
  double ahead = 0, before = 0, within = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double z = random.normal();
    const auto at = [&](double d) {
      const double turn =
          aim + z * std::sqrt(cross.start_m2 + d * (cross.wander_m + d * cross.angle2)) / d;
      return GridPoint{d * std::sin(turn), d * std::cos(turn)};
    };
    GridPoint from = at(5);
    for (double d = 6; d < 1600; d += 1) {
      const GridPoint to = at(d);
      const double way = earth::grid_distance_m(from, to);
      const Ray met = cast_ray(from, std::atan2(to.east_m - from.east_m, to.north_m - from.north_m),
                               road, 2 * way);
      if (!std::isnan(met.along_m) && met.distance_m <= way) {
        (met.along_m > target + window   ? ahead
         : met.along_m < target - window ? before
                                         : within) += 1.0 / n;
        break;
      }
      from = to;
    }
  }
  EXPECT_NEAR(m.ahead, ahead, 0.01);
  EXPECT_NEAR(m.within, within, 0.01);
  EXPECT_NEAR(m.before, before, 0.01);
}

// Sightings wander with the root of the distance, a start's error not at all: on a slanting line
// with an end, against 200 000 walkers.
TEST(AimedLeg, SlantingLineFromAnUnsureStart) {
  const Line crooked{{-150, 420}, {-20, 330}, {10, 350}, {60, 200}, {80, 60}};
  LegGrowth g;
  g.start_cross_m2 = 30 * 30;
  g.start_along_m2 = 20 * 20;
  g.start_both_m2 = 0.3 * 30 * 20;
  g.angle2 = 0.05 * 0.05;
  g.wander_m = 100 * 0.05 * 0.05;
  g.scale2 = 0.05 * 0.05;
  const double target = mapdata::along_of(crooked, {10, 350});
  const LineEnd end{{0, 0}, crooked, target, 50, g};
  const AimedLeg leg = aimed_leg(end, 0, {});
  numeric::Random random(8);
  constexpr std::size_t n = 200000;
  std::size_t within = 0, missed = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double a = random.normal(), b = 0.3 * a + std::sqrt(1 - 0.09) * random.normal();
    const GridPoint ahead{std::sin(leg.bearing.in_radians()), std::cos(leg.bearing.in_radians())},
        right{ahead.north_m, -ahead.east_m};
    GridPoint at = 30 * a * right + 20 * b * ahead;
    const double turn = leg.bearing.in_radians() + 0.05 * random.normal();
    double left = (leg.length_m + leg.beyond_m) * (1 + 0.05 * random.normal()), along = 0;
    bool met = false;
    for (; left > 0 && !met; left -= 100) {  // sightings of 100 m
      const double heading = turn + 0.05 * random.normal();
      const Ray ray = cast_ray(at, heading, crooked, std::min(left, 100.0));
      met = !std::isnan(ray.along_m);
      along = ray.along_m;
      at = at + 100 * GridPoint{std::sin(heading), std::cos(heading)};
    }
    if (!met)
      ++missed;
    else if (std::abs(along - target) <= 50)
      ++within;
  }
  EXPECT_NEAR(leg.within, static_cast<double>(within) / n, 0.02);
  EXPECT_NEAR(leg.missed, static_cast<double>(missed) / n, 0.02);
}

TEST(AimedLeg, FarStraightLineIsTheClosedForm) {
  const LineEnd end{{0, 0}, across, 5000, 0, at_end(1000, 30, 40)};
  const AimCosts costs;
  const Aim plain = best_aim(1000, 90 * degree, 30, costs);
  const AimedLeg leg = best_aimed_leg(end, costs);
  EXPECT_NEAR(std::abs(leg.offset_m), plain.offset_m, 4);  // flat minimum, giving up is in it here
  // who meets the line over two sigmas beyond the offset has turned round before the place: 2.3 in
  // 100, who go the longer for the offset, there and back
  const double turns_back = normal_cdf(-2);
  EXPECT_NEAR(leg.wrong_way, plain.wrong_side_probability + turns_back, 3e-3);
  EXPECT_NEAR(leg.saving_min,
              plain.saving_min - turns_back * 2 * plain.offset_m * costs.line_min_per_m, 0.05);
  // gives up 3 sigma (120 m) on, where sigma has grown to 40 * 1120 / 1000
  EXPECT_NEAR(leg.missed, normal_cdf(-3 / 1.12), 2e-4);
}

// The line ends 20 m ahead of the place: aiming that way would miss it.
TEST(AimedLeg, KeepsOffTheLinesEnd) {
  const Line ends{{-5000, 1000}, {20, 1000}};
  const AimedLeg leg = best_aimed_leg({{0, 0}, ends, 5000, 0, at_end(1000, 40, 40)}, {});
  EXPECT_LT(leg.offset_m, -50);
  EXPECT_TRUE(leg.aim_is_left);
}

RC_GTEST_PROP(AimedLeg, MirroredGroundMirrorsTheAim, ()) {
  const double bend = *rc::gen::inRange(-300, 300), end = *rc::gen::inRange(30, 600);
  const double sigma = *rc::gen::inRange(10, 60);
  const Line line{{-500, 900 + bend}, {0, 900}, {end, 950}};
  Line mirrored;
  for (const GridPoint p : line) mirrored.push_back({-p.east_m, p.north_m});
  const double target = mapdata::along_of(line, {0, 900});
  const AimedLeg a = best_aimed_leg({{0, 0}, line, target, 10, at_end(900, sigma, 40)}, {});
  const AimedLeg b = best_aimed_leg({{0, 0}, mirrored, target, 10, at_end(900, sigma, 40)}, {});
  RC_ASSERT(std::abs(a.offset_m - b.offset_m) < 0.02 * sigma);
  RC_ASSERT(a.aim_is_left != b.aim_is_left || a.offset_m == 0);
  RC_ASSERT(std::abs(a.right_way - b.right_way) < 1e-3);
}

RC_GTEST_PROP(AimedLeg, MoreErrorIsNeverSurer, ()) {
  const double bend = *rc::gen::inRange(-200, 200), sigma = *rc::gen::inRange(10, 60);
  const Line line{{-3000, 900 + bend}, {0, 900}, {3000, 950}};
  const double target = mapdata::along_of(line, {0, 900}), offset = *rc::gen::inRange(0, 150);
  const AimedLeg a = aimed_leg({{0, 0}, line, target, 10, at_end(900, sigma, 40)}, offset, {});
  const AimedLeg b =
      aimed_leg({{0, 0}, line, target, 10, at_end(900, sigma * 1.2, 40)}, offset, {});
  RC_ASSERT(b.right_way <= a.right_way + 2e-3);
}

/// Rays that look only where pieces lie find what looking at every piece by itself finds.
RC_GTEST_PROP(LineCaster, ManyPiecesAreEachSeen, ()) {
  const auto metre = [] { return static_cast<double>(*rc::gen::inRange(-1000, 1001)); };
  Line line;
  for (int i = 0; i < 60; ++i) line.push_back({metre(), metre()});
  const bool on_it = *rc::gen::inRange(0, 2) == 1;
  const GridPoint from =
      on_it ? line[30] + 0.5 * (line[31] - line[30]) : GridPoint{metre(), metre()};
  const double reach = *rc::gen::inRange(100, 3000);
  const double toward = 0.01 * *rc::gen::inRange(0, 628), half = 0.01 * *rc::gen::inRange(1, 151);
  const LineCaster caster(from, toward, half, pieces_within(line, from, reach), reach);
  for (int k = -50; k <= 50; ++k) {
    const double angle = toward + 0.0199 * k * half;
    double least = reach, along = 0, at = std::numeric_limits<double>::quiet_NaN();
    for (std::size_t i = 1; i < line.size(); ++i) {
      const auto piece = pieces_within(Line{line[i - 1], line[i]}, from, reach);
      const Ray ray = LineCaster(from, toward, half, piece, reach).cast(angle);
      if (!std::isnan(ray.along_m) && ray.distance_m <= least) {
        least = ray.distance_m;
        at = along + ray.along_m;
      }
      along += earth::grid_distance_m(line[i - 1], line[i]);
    }
    const Ray found = caster.cast(angle);
    RC_ASSERT(found.distance_m == least);
    RC_ASSERT(std::isnan(found.along_m) == std::isnan(at));
    if (!std::isnan(at)) RC_ASSERT(std::abs(found.along_m - at) < 1e-6);
  }
}

TEST(Line, AlongAndBack) {
  const Line bent{{0, 0}, {0, 100}, {50, 100}};
  EXPECT_NEAR(mapdata::length_m(bent), 150, 1e-12);
  EXPECT_EQ(mapdata::point_along(bent, 120), (GridPoint{20, 100}));
  EXPECT_EQ(mapdata::point_along(bent, 500), (GridPoint{50, 100}));
  EXPECT_NEAR(mapdata::along_of(bent, {23, 107}), 123, 1e-12);
  EXPECT_NEAR(mapdata::direction_at(bent, 30).in_degrees(), 0, 1e-12);
  EXPECT_NEAR(mapdata::direction_at(bent, 130).in_degrees(), 90, 1e-12);
}
}  // namespace line_target_test
