#include "lodeway/reckoning/handrail.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/dead_reckoning.hpp"
#include "lodeway/reckoning/line_target.hpp"
#include "lodeway/reckoning/point_target.hpp"

namespace lodeway::reckoning {

double keeps_line(const mapdata::KindTraits& traits, mapdata::Visibility visibility,
                  double length) {
  const double known =
      std::clamp(traits.recognised[static_cast<std::size_t>(visibility)], 0.0, 1.0);
  return std::pow(known, length / 4000);
}

double takes_right_branch(mapdata::Visibility visibility, double turn_deg) {
  constexpr std::array<double, mapdata::visibility_count> rate{0.02, 0.04, 0.06, 0.08};
  const double alike = 0.5 * (1 + std::cos(turn_deg * std::numbers::pi / 180));
  return 1 - rate[static_cast<std::size_t>(visibility)] * alike;
}

namespace {

/// Does the way's own line go on past one of the way's ends, by `there`, which is nearest to the
/// way at `nearest_m` along it? Not to stop is another error than a wrong branch.
bool goes_on_past_end(const std::vector<GridPoint>& way, double length_m, double nearest_m,
                      const std::vector<GridPoint>& line) {
  constexpr double on_m = 3, end_m = 0.5;
  if (nearest_m > end_m && nearest_m < length_m - end_m) return false;
  const GridPoint end = nearest_m > end_m ? way.back() : way.front();
  return earth::grid_distance_m(point_along(line, along_of(line, end)), end) <= on_m;
}

}  // namespace

double takes_all_branches(const Guides& around, const std::vector<GridPoint>& way,
                          mapdata::Kind followed, mapdata::Visibility visibility, double seen_m,
                          double known) {
  constexpr double look_m = 20, apart_m = 5;
  const double length_m = mapdata::length_m(way);
  double right = 1, last_m = -look_m, at_m = 0;
  for (std::size_t i = 1; i + 1 < way.size(); ++i) {
    at_m += earth::grid_distance_m(way[i - 1], way[i]);
    if (at_m - last_m < look_m) continue;  // the same meeting of ways
    const GridPoint onward = point_along(way, at_m + look_m) - way[i];
    bool any = false;
    for (const OnLine& on : around.lines_at(way[i], 3)) {
      const auto& other = around.line(on.line);
      const double alike = landmarks::looks_alike(other.label.kind, followed) *
                           (length_m - at_m <= seen_m ? 1 - known : 1);
      if (alike <= 0 || !around.traits(other.label.kind).leads) continue;
      for (const double step : {-look_m, look_m}) {
        const GridPoint there = point_along(other.points, std::max(on.along_m + step, 0.0));
        const GridPoint away = there - way[i];
        if (length_of(away) < 0.5 * look_m) continue;  // it ends here
        const double nearest_m = along_of(way, there);
        if (earth::grid_distance_m(point_along(way, nearest_m), there) < apart_m) continue;
        if (goes_on_past_end(way, length_m, nearest_m, other.points)) continue;
        const double turn =
            std::abs(std::atan2(onward.east_m * away.north_m - onward.north_m * away.east_m,
                                onward.east_m * away.east_m + onward.north_m * away.north_m));
        right *= 1 - alike * (1 - takes_right_branch(visibility, turn * 180 / std::numbers::pi));
        any = true;
      }
    }
    if (any) last_m = at_m;
  }
  return right;
}

double handrail_sigma_m(const Errors& errors, double since) {
  return std::sqrt(single_leg_spread(errors, since).along_m2);
}

double stops_at_end(double along_sigma, double recognised, double tolerance) {
  return recognised + (1 - recognised) * passes_within(along_sigma, 0, tolerance);
}

}  // namespace lodeway::reckoning
