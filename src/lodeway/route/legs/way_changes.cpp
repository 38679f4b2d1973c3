#include "lodeway/route/legs/way_changes.hpp"

#include <optional>

#include "lodeway/walking/course.hpp"

namespace lodeway::route {

std::vector<WayChange> way_changes(const Cutting& c, const walking::Course& course) {
  std::vector<WayChange> out;
  if (course.kind != walking::LegKind::along || !walking::is_path(course.followed.kind)) return out;
  std::optional<mapdata::Kind> before;
  double at_m = 0;
  for (std::size_t i = 1; i < course.line.size(); ++i) {
    const auto middle = 0.5 * (course.line[i - 1] + course.line[i]);
    std::optional<mapdata::Kind> here;
    for (const auto& near : c.around.lines().near(middle, 1)) {
      const auto kind = c.ground.map.lines[near.ref.line].label.kind;
      if (walking::is_path(kind) && (!here || kind == before)) here = kind;
    }
    if (here && before && *here != *before) out.push_back({at_m, *here});
    if (here) before = here;
    at_m += earth::grid_distance_m(course.line[i - 1], course.line[i]);
  }
  return out;
}

}  // namespace lodeway::route
