#include "lodeway/mapdata/bends.hpp"

#include <cmath>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {

namespace {
constexpr double bend_deg = 30, held_m = 80, off_m = 15;
}  // namespace

std::vector<BendMet> main_bends(std::span<const GridPoint> line) {
  std::vector<BendMet> out;
  const auto plain = simplify(line, off_m);
  double at = 0;
  for (std::size_t i = 1; i + 1 < plain.size(); ++i) {
    const double before = earth::grid_distance_m(plain[i - 1], plain[i]);
    at += before;
    const auto after = earth::grid_bearing(plain[i], plain[i + 1]);
    const double turn = (after - earth::grid_bearing(plain[i - 1], plain[i])).in_degrees();
    if (std::abs(turn) > bend_deg && before >= held_m &&
        earth::grid_distance_m(plain[i], plain[i + 1]) >= held_m)
      out.push_back({at, turn, after});
  }
  return out;
}

}  // namespace lodeway::mapdata
