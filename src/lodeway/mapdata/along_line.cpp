#include "lodeway/mapdata/along_line.hpp"

#include <algorithm>
#include <limits>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {

GridPoint point_along(std::span<const GridPoint> line, double along) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double length = length_of(line[i] - line[i - 1]);
    if (along <= length && length > 0)
      return line[i - 1] + std::max(along, 0.0) / length * (line[i] - line[i - 1]);
    along -= length;
  }
  return line.back();
}

double along_of(std::span<const GridPoint> line, GridPoint p) {
  double best = std::numeric_limits<double>::infinity(), found = 0, along = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const GridPoint d = line[i] - line[i - 1], w = p - line[i - 1];
    const double length = length_of(d);
    if (length <= 0) continue;
    const double t =
        std::clamp((w.east_m * d.east_m + w.north_m * d.north_m) / length, 0.0, length);
    const double away = length_of(line[i - 1] + t / length * d - p);
    if (away < best) {
      best = away;
      found = along + t;
    }
    along += length;
  }
  return found;
}

units::GridBearing direction_at(std::span<const GridPoint> line, double along) {
  std::size_t i = 1;
  for (; i + 1 < line.size(); ++i) {
    const double length = length_of(line[i] - line[i - 1]);
    if (along < length) break;
    along -= length;
  }
  return earth::grid_bearing(line[i - 1], line[i]);
}

}  // namespace lodeway::mapdata
