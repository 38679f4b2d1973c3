#include "lodeway/reckoning/ends/handrail.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/logit.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"

namespace lodeway::reckoning {

double keeps_line(const mapdata::KindTraits& traits, mapdata::Visibility visibility,
                  double length, double shift) {
  const double known =
      std::clamp(traits.recognised[static_cast<std::size_t>(visibility)], 0.0, 1.0);
  return std::pow(numeric::shifted_chance(known, shift), length / 4000);
}

double takes_right_branch(mapdata::Visibility visibility, double turn_deg, double shift) {
  constexpr std::array<double, mapdata::visibility_count> rate{0.02, 0.04, 0.06, 0.08};
  const double alike = 0.5 * (1 + std::cos(turn_deg * std::numbers::pi / 180));
  return 1 - numeric::shifted_chance(rate[static_cast<std::size_t>(visibility)], -shift) * alike;
}

namespace {

/// So far along a line from a place on one of its segments, against its direction where negative;
/// its end where it is shorter.
GridPoint walked(const std::vector<GridPoint>& line, std::size_t segment, GridPoint from,
                 double step_m) {
  double left = std::abs(step_m);
  const bool on = step_m > 0;
  for (std::size_t k = on ? segment + 1 : segment; k < line.size(); on ? ++k : --k) {
    const double length = length_of(line[k] - from);
    if (left <= length && length > 0) return from + left / length * (line[k] - from);
    left -= length;
    from = line[k];
  }
  return on ? line.back() : line.front();
}

/// Is the way within `apart_m` of a place, no further than `reach_m` along it from its point `i`?
bool beside_way(const std::vector<GridPoint>& way, std::size_t i, GridPoint place, double apart_m,
                double reach_m) {
  const auto near = [&](std::size_t k) {
    const double t = mapdata::nearest_fraction(way[k], way[k + 1], place);
    return length_of(way[k] + t * (way[k + 1] - way[k]) - place) < apart_m;
  };
  double there = 0, back = 0;
  for (std::size_t k = i; k + 1 < way.size() && there < reach_m; ++k) {
    if (near(k)) return true;
    there += length_of(way[k + 1] - way[k]);
  }
  for (std::size_t k = i; k > 0 && back < reach_m; --k) {
    if (near(k - 1)) return true;
    back += length_of(way[k] - way[k - 1]);
  }
  return false;
}

/// Does the way's own line go on past one of the way's ends, by `there`, which is nearest to the
/// way at `nearest_m` along it? Not to stop is another error than a wrong branch.
bool goes_on_past_end(const std::vector<GridPoint>& way, double length_m, double nearest_m,
                      const std::vector<GridPoint>& line) {
  constexpr double on_m = 3, end_m = 0.5;
  if (nearest_m > end_m && nearest_m < length_m - end_m) return false;
  const GridPoint end = nearest_m > end_m ? way.back() : way.front();
  return earth::grid_distance_m(mapdata::point_along(line, mapdata::along_of(line, end)), end) <= on_m;
}

}  // namespace

double takes_all_branches(const Guides& around, const std::vector<GridPoint>& way,
                          mapdata::Kind followed, mapdata::Visibility visibility, double seen_m,
                          double known, double shift) {
  constexpr double look_m = 20, apart_m = 5;
  const double length_m = mapdata::length_m(way);
  double right = 1, last_m = -look_m, at_m = 0;
  for (std::size_t i = 1; i + 1 < way.size(); ++i) {
    at_m += earth::grid_distance_m(way[i - 1], way[i]);
    if (at_m - last_m < look_m) continue;  // the same meeting of ways
    const GridPoint onward = walked(way, i, way[i], look_m) - way[i];
    bool any = false;
    for (const OnLine& on : around.lines_at(way[i], 3)) {
      const auto& other = around.line(on.line);
      const double alike = landmarks::looks_alike(other.label.kind, followed) *
                           (length_m - at_m <= seen_m ? 1 - known : 1);
      if (alike <= 0 || !around.traits(other.label.kind).leads) continue;
      for (const double step : {-look_m, look_m}) {
        const GridPoint there = walked(other.points, on.segment, on.at, step);
        const GridPoint away = there - way[i];
        if (length_of(away) < 0.5 * look_m) continue;                  // it ends here
        if (beside_way(way, i, there, apart_m, 2 * look_m)) continue;  // the line that is followed
        const double nearest_m = mapdata::along_of(way, there);
        if (earth::grid_distance_m(mapdata::point_along(way, nearest_m), there) < apart_m) continue;
        if (goes_on_past_end(way, length_m, nearest_m, other.points)) continue;
        const double turn =
            std::abs(std::atan2(onward.east_m * away.north_m - onward.north_m * away.east_m,
                                onward.east_m * away.east_m + onward.north_m * away.north_m));
        right *= 1 - alike * (1 - takes_right_branch(visibility, turn * 180 / std::numbers::pi, shift));
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
