#include "lodeway/reckoning/ends/handrail.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/logit.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::reckoning {

double keeps_line(double stay, double length, double shift) {
  return std::pow(numeric::shifted_chance(std::clamp(stay, 0.0, 1.0), shift), length / 1000);
}

double straightness(double turn_cosine) {
  constexpr double least = 0.02;
  const double half = 0.5 * (1 + turn_cosine);
  return std::max(half * half, least);
}

double takes_right_branch(double look, double branch, const ForkMet& fork, double shift) {
  if (fork.arms <= 0) return 1;
  const double errs = std::min(2 * look * (1 - branch) + 1 - look, 1.0);
  return numeric::shifted_chance(1 - errs * fork.arms / (fork.arms + fork.onward), shift);
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
bool own_line_past_end(const std::vector<GridPoint>& way, double length_m, double nearest_m,
                       const std::vector<GridPoint>& line) {
  constexpr double on_m = 3, end_m = 0.5;
  if (nearest_m > end_m && nearest_m < length_m - end_m) return false;
  const GridPoint end = nearest_m > end_m ? way.back() : way.front();
  return earth::grid_distance_m(mapdata::point_along(line, mapdata::along_of(line, end)), end) <=
         on_m;
}

}  // namespace

namespace {
double turn_cosine(GridPoint a, GridPoint b) {
  const double lengths = length_of(a) * length_of(b);
  return lengths > 0 ? mapdata::dot(a, b) / lengths : 1;
}
constexpr double look_m = 20, apart_m = 5;

/// Does an arm that leads from `start` to `there` lead back to where the party came from?
bool leads_back(GridPoint start, GridPoint there, GridPoint came_by) {
  constexpr double same_m = 6;
  const double t = mapdata::nearest_fraction(start, came_by, there);
  return earth::grid_distance_m(start + t * (came_by - start), there) < same_m;
}
}  // namespace

GridPoint arm_come_by(const std::vector<GridPoint>& way) {
  return walked(way, way.size() - 2, way.back(), -look_m);
}

std::vector<ForkOnWay> forks_on(const Guides& around, const std::vector<GridPoint>& way,
                                mapdata::Kind followed, double seen_m, double known,
                                std::optional<GridPoint> came_by) {
  const double length_m = mapdata::length_m(way);
  std::vector<ForkOnWay> out;
  double last_m = -look_m, at_m = 0;
  for (std::size_t i = 0; i + 1 < way.size(); ++i) {
    if (i > 0) at_m += earth::grid_distance_m(way[i - 1], way[i]);
    if (at_m - last_m < look_m) continue;  // the same meeting of ways
    const GridPoint onward = walked(way, i, way[i], look_m) - way[i];
    if (i == 0 && came_by && leads_back(way[0], way[0] + onward, *came_by)) continue;  // turned round
    // whoever sets out came by what is behind, as far as this leg knows
    const GridPoint come = i == 0 ? onward : way[i] - walked(way, i - 1, way[i], -look_m);
    ForkMet fork{straightness(turn_cosine(come, onward)), 0};
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
        if (i == 0 && came_by && leads_back(way[i], there, *came_by)) continue;
        if (i > 0 && own_line_past_end(way, length_m, nearest_m, other.points)) continue;
        fork.arms += alike * straightness(turn_cosine(come, away));
      }
    }
    if (fork.arms <= 0) continue;
    out.push_back({at_m, fork});
    last_m = at_m;
  }
  return out;
}

double takes_all_branches(const Guides& around, const std::vector<GridPoint>& way,
                          mapdata::Kind followed, double seen_m, double known, double shift,
                          std::optional<GridPoint> came_by) {
  const double look = around.chances().of(sight::Setting::fork_attention),
               branch = around.chances().of(sight::ChanceOf::branch, followed);
  double right = 1;
  for (const auto& met : forks_on(around, way, followed, seen_m, known, came_by))
    right *= takes_right_branch(look, branch, met.fork, shift);
  return right;
}

bool goes_on_past_end(const Guides& around, const std::vector<GridPoint>& way,
                      mapdata::Kind followed) {
  const GridPoint end = way.back();
  const GridPoint come = end - walked(way, way.size() - 2, end, -look_m);
  const GridPoint before = end - come;
  for (const OnLine& on : around.lines_at(end, 3)) {
    const auto& other = around.line(on.line);
    if (landmarks::looks_alike(other.label.kind, followed) <= 0) continue;
    for (const double step : {-look_m, look_m}) {
      const GridPoint away = walked(other.points, on.segment, on.at, step) - end;
      if (length_of(away) >= 0.25 * look_m && turn_cosine(come, away) > 0) return true;
    }
    // the line that was followed may turn back sharply there, and goes on all the same
    const double came_m = mapdata::along_of(other.points, before);
    if (earth::grid_distance_m(mapdata::point_along(other.points, came_m), before) > apart_m)
      continue;
    const double left_m =
        came_m < on.along_m ? mapdata::length_m(other.points) - on.along_m : on.along_m;
    if (left_m >= 0.25 * look_m) return true;
  }
  return false;
}

double handrail_sigma_m(const Errors& errors, double since) {
  return std::sqrt(single_leg_spread(errors, since).along_m2);
}

}  // namespace lodeway::reckoning
