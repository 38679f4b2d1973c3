#pragma once
/// Ground that is not known, and ground to keep off: said with hatching, never left white.
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/sheet/draw/labels.hpp"
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::sheet {

/// Hatching wherever the map has no height: voids, and beyond the ground's rim. Answers whether
/// there is any.
bool draw_unknown(Page& page, const MapFrame& frame, const terrain::Elevation& heights);

/// Hazard: hatch, a dark edge, ticks that point in. Forbidden areas of the map, the leader's own,
/// and, lighter and without ticks, ground that is steeper over some 50 m than the party goes on
/// (off paths), where it is larger than 12 mm2 on paper. `max_slope_deg` 90 or more leaves that
/// last one out.
void draw_hazard(Page& page, const MapFrame& frame, const mapdata::MapData& map,
                 const std::vector<std::vector<earth::GridPoint>>& avoid,
                 const terrain::Elevation& heights, double max_slope_deg);

}  // namespace lodeway::sheet
