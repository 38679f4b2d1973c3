#include "lodeway/reckoning/judge/single_leg.hpp"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"

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
  a.wrong_side_probability = aim.wrong_side_probability;
  a.saving_min = aim.saving_min;
  a.certainty = 1 - aim.wrong_side_probability;
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
