#include "lodeway/mapdata/streets.hpp"

#include <algorithm>
#include <iterator>

#include "lodeway/mapdata/house_among.hpp"
#include "lodeway/mapdata/network.hpp"
#include "lodeway/mapdata/point_index.hpp"

namespace lodeway::mapdata {

std::vector<GridPoint> street_corners(const MapData& map) {
  const auto is_road = [](const LineFeature& line) {
    return line.label.kind == Kind::road && !line.tunnel;
  };
  if (std::ranges::none_of(map.lines, is_road)) return {};
  const Network roads(map.lines, is_road);
  std::vector<GridPoint> corners;
  for (const auto& node : roads.nodes()) {
    if (node.edges.size() >= 3) corners.push_back(node.at);
  }
  const PointIndex index(corners);
  std::vector<GridPoint> out;
  std::ranges::copy_if(corners, std::back_inserter(out), [&](GridPoint at) {
    return index.near(at, among_within_m).size() > among_houses;  // with itself
  });
  return out;
}

}  // namespace lodeway::mapdata
