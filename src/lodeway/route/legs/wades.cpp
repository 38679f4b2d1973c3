#include "lodeway/route/legs/wades.hpp"

#include <algorithm>

#include "lodeway/route/legs/open_stretch.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::route {

int wades(const Cutting& c, const walking::Course& course) {
  const auto is_water = [](mapdata::Kind kind) {
    return kind == mapdata::Kind::stream || kind == mapdata::Kind::river;
  };
  const auto followed = course.followed.kind;
  if (course.kind == walking::LegKind::along && (walking::is_path(followed) || is_water(followed)))
    return 0;
  constexpr double at_end_m = 2;
  const auto first = course.line.front(), last = course.line.back();
  int out = 0;
  for (std::size_t i = 1; i < course.line.size(); ++i) {
    for (const auto& met : c.around.lines().crossings(course.line[i - 1], course.line[i])) {
      const auto& line = c.ground.map.lines[met.ref.line];
      if (!is_water(line.label.kind) || line.tunnel) continue;
      const auto there = [&](earth::GridPoint p, double within_m) {
        return earth::grid_distance_m(p, met.at) <= within_m;
      };
      if (there(first, at_end_m) || there(last, at_end_m)) continue;
      const bool dry = std::ranges::any_of(c.prepared.cover.openings(), [&](earth::GridPoint p) {
        return there(p, walking::Cover::at_bridge_m);
      });
      out += dry ? 0 : 1;
    }
  }
  return out;
}

double wading_s(const Cutting& c, const walking::Course& course) {
  return leg_costs_s * wades(c, course);
}

}  // namespace lodeway::route
