#pragma once
/// Water lines ready to be drawn: turned to flow down, and as wide as what they gather.
#include <vector>

#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::sheet {

struct WaterLine {
  mapdata::Kind kind = mapdata::Kind::stream;
  std::vector<Mm> line;          ///< from its head down
  std::vector<double> width_mm;  ///< one a point, 0.20 to 0.54, never narrower further down
};

/// Streams, ditches and rivers of the map and the rim around it, not those under the ground.
/// The width grows with the length of all water lines above that join it, within 2 km of the map:
/// 0.20 mm at the head, 0.54 mm from 12 km on.
[[nodiscard]] std::vector<WaterLine> water_lines(const MapFrame& frame, const mapdata::MapData& map,
                                                 const terrain::Elevation& heights);

}  // namespace lodeway::sheet
