#include "lodeway/reckoning/judge/single_leg.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "lodeway/reckoning/ends/line_target.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::reckoning {

namespace {
Result<void> check(const SingleLeg& leg) {
  if (!(leg.length_m > 0 && leg.length_m <= 1e6))
    return fail(
        FaultCode::bad_input,
        fmt::format("length: expected metres above 0, at most 1000000, got {}", leg.length_m));
  if (leg.seen_from_m.has_value() == leg.crossing_angle_rad.has_value())
    return fail(FaultCode::bad_input, "target: expected a point or a line");
  if (leg.seen_from_m && !(*leg.seen_from_m > 0 && *leg.seen_from_m <= 1e6))
    return fail(FaultCode::bad_input,
                fmt::format("seen from: expected metres above 0, got {}", *leg.seen_from_m));
  // 90 degrees in radians may round up
  if (leg.crossing_angle_rad &&
      !(*leg.crossing_angle_rad > 0 && *leg.crossing_angle_rad <= std::numbers::pi / 2 + 1e-12))
    return fail(FaultCode::bad_input,
                fmt::format("crossing angle: expected degrees above 0, at most 90, got {:.6g}",
                            *leg.crossing_angle_rad * 180 / std::numbers::pi));
  return {};
}

/// What becomes of a leg to the aim on a straight line through the mark; the leg to the mark runs
/// north, the line to the right of it and on.
void meet_line(const SingleLeg& leg, SingleLegAnswer& a) {
  const double phi = *leg.crossing_angle_rad;
  const earth::GridPoint mark{0, leg.length_m}, along{std::sin(phi), std::cos(phi)};
  const earth::GridPoint aim = mark - a.aim_off_m * along;
  const double length = std::hypot(aim.east_m, aim.north_m);
  const double toward = std::atan2(aim.east_m, aim.north_m);
  const Spread spread = single_leg_spread(leg.errors, length);
  const double oblique = std::sqrt(spread.cross_m2) / std::tan(std::min(phi - toward, 1.5));
  const double along_m = std::sqrt(spread.along_m2);
  a.gives_up_beyond_m = leg.habits.line_beyond_sigmas * std::hypot(along_m, oblique);
  const double gives_up = length + a.gives_up_beyond_m;
  const double far = at_give_up(along_m, length, a.gives_up_beyond_m);
  const double reach = gives_up + 7 * far;
  const std::vector<earth::GridPoint> line{mark - (2 * reach) * along, mark + (2 * reach) * along};
  const Errors& e = leg.errors;
  // The variances of single_leg_spread as a growth with the distance.
  const double one = single_leg_spread(e, length).cross_m2;
  const double s = std::min(e.sighting_every_m, length);
  const double wander = s * e.sighting_sigma * e.sighting_sigma;
  const CrossGrowth growth{(one - length * wander) / (length * length), wander, 0};
  const Meeting met =
      Fan({0, 0}, toward, 1.5, line, reach).meet(toward, growth, 2 * reach, 0, gives_up, far);
  a.certainty = met.before + met.within;
  a.wrong_side_probability = met.ahead;
  a.never_met_probability = met.missed;
}
}  // namespace

Result<SingleLegAnswer> reckon_leg(const SingleLeg& leg) {
  if (const auto good = check(leg); !good) return std::unexpected(good.error());
  const Spread spread = single_leg_spread(leg.errors, leg.length_m);
  SingleLegAnswer a;
  a.cross_sigma_m = std::sqrt(spread.cross_m2);
  a.along_sigma_m = std::sqrt(spread.along_m2);
  if (leg.seen_from_m) {
    a.pass_within_probability = passes_within(a.cross_sigma_m, 0, *leg.seen_from_m);
    a.gives_up_beyond_m = leg.habits.beyond_sigmas * a.along_sigma_m;
    const double at_last = at_give_up(a.along_sigma_m, leg.length_m, a.gives_up_beyond_m);
    a.certainty = sees_before_giving_up({a.cross_sigma_m, at_last, 0}, 0, *leg.seen_from_m,
                                        a.gives_up_beyond_m);
    return a;
  }
  const double per_m = 0.06 / leg.speed_kmh;
  a.line_sigma_m = line_sigma(a.cross_sigma_m, *leg.crossing_angle_rad);
  const Aim aim = best_aim(leg.length_m, *leg.crossing_angle_rad, a.line_sigma_m,
                           {per_m, per_m, leg.habits.doubt_min, leg.habits.wrong_way_sigmas});
  a.aim_off_m = aim.offset_m;
  a.saving_min = aim.saving_min;
  constexpr double least_rad = least_crossing_deg * std::numbers::pi / 180;
  a.catches = *leg.crossing_angle_rad >= least_rad - 1e-9;
  if (a.catches) meet_line(leg, a);
  a.catches = a.catches && a.never_met_probability < 0.5;
  return a;
}

Result<double> longest_leg_m(SingleLeg leg, double certainty) {
  double low = 0, high = 20000;
  while (high - low > 1) {
    leg.length_m = std::floor(0.5 * (low + high));
    const auto answer = reckon_leg(leg);
    if (!answer) return std::unexpected(answer.error());
    (answer->certainty >= certainty ? low : high) = leg.length_m;
  }
  return low;
}

}  // namespace lodeway::reckoning
