#include "lodeway/mapdata/house_among.hpp"

#include <utility>

#include "lodeway/mapdata/point_index.hpp"

namespace lodeway::mapdata {

namespace {
bool is_house(Kind kind) {
  return kind == Kind::building || kind == Kind::ruin || kind == Kind::hut ||
         kind == Kind::shelter || kind == Kind::sheepfold;
}
}  // namespace

std::vector<char> houses_among_others(const MapData& map) {
  std::vector<std::uint32_t> houses;
  std::vector<earth::GridPoint> places;
  for (std::uint32_t i = 0; i < map.points.size(); ++i) {
    if (!is_house(map.points[i].label.kind)) continue;
    houses.push_back(i);
    places.push_back(map.points[i].at);
  }
  std::vector<char> out(map.points.size(), 0);
  const PointIndex index(places);
  for (std::size_t k = 0; k < houses.size(); ++k) {
    if (!map.points[houses[k]].label.name.empty()) continue;
    const auto near = index.near(places[k], among_within_m).size();  // with itself
    out[houses[k]] = near > among_houses ? 1 : 0;
  }
  return out;
}

}  // namespace lodeway::mapdata
