#pragma once
/// Streets: where a map shows a settlement by its roads and draws no houses. Method:
/// docs/method/landmarks.md
#include <vector>

#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::mapdata {

/// Corners of streets: places where three roads or more meet, with as many others as near as make
/// houses a settlement (house_among.hpp), so far as these lie on the map. Grid metres; in no
/// particular order, the same for the same map. About 1 us for each segment of a road.
[[nodiscard]] std::vector<GridPoint> street_corners(const MapData& map);

}  // namespace lodeway::mapdata
