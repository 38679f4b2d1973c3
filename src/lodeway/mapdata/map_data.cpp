#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::mapdata {

namespace {
bool inside_ring(const std::vector<GridPoint>& ring, GridPoint p) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const GridPoint a = ring[i], b = ring[j];
    if ((a.north_m > p.north_m) == (b.north_m > p.north_m)) continue;
    const double t = (p.north_m - a.north_m) / (b.north_m - a.north_m);
    if (p.east_m < a.east_m + t * (b.east_m - a.east_m)) inside = !inside;
  }
  return inside;
}
}  // namespace

double length_m(std::span<const GridPoint> line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += earth::grid_distance_m(line[i - 1], line[i]);
  return sum;
}

bool contains(const AreaFeature& area, GridPoint p) {
  if (area.outer.empty()) return false;
  bool inside = inside_ring(area.outer, p);
  for (const auto& hole : area.holes) {
    if (!hole.empty() && inside_ring(hole, p)) inside = !inside;
  }
  return inside;
}

}  // namespace lodeway::mapdata
