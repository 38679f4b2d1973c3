#include "lodeway/route/choose/harm_of_lost.hpp"

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::route {

double harm_of_lost(const reckoning::JudgedWay& way, const reckoning::HazardGround& ground) {
  constexpr int directions = 16;
  if (!ground.any()) return 0;
  double still_on_it = 1, out = 0;
  for (const auto& leg : way.legs) {
    const auto& line = leg.course.line;
    const double lost = still_on_it * (1 - leg.judged.certainty);
    still_on_it -= lost;
    if (lost <= 0 || line.empty()) continue;
    reckoning::Walk walk;
    walk.length_m = lost_go_on_m;
    double tread = 0;
    for (const double share : {0.5, 1.0}) {
      walk.from = mapdata::point_along(line, share * mapdata::length_m(line));
      tread += 0.5 * reckoning::astray_hazard(ground, walk, 0, 180, directions);
    }
    out += lost * tread;
  }
  return out;
}

}  // namespace lodeway::route
