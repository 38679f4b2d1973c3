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

/// Which kinds of ground to keep off a map shows.
struct KeptOff {
  bool closed = false, avoided = false, steep = false;
};

/// Ground to keep off, each kind in a form of its own. Closed by rule (areas of the map): a whole
/// dark edge and pairs of upright bars, no hatch. The leader's own (`avoid`): a pale surface, a
/// hatch, a whole edge, ticks that point in. Ground that is steeper over some 50 m than the party
/// goes on (off paths), where it is larger than 12 mm2 on paper: a hatch that leans the other way,
/// a broken edge, no ticks. `max_slope_deg` 90 or more leaves the steep ground out. Answers what
/// there is on the map.
KeptOff draw_hazard(Page& page, const MapFrame& frame, const mapdata::MapData& map,
                 const std::vector<std::vector<earth::GridPoint>>& avoid,
                 const terrain::Elevation& heights, double max_slope_deg);

/// The sign of steep ground over the whole of a ring: for the key.
void draw_steep_sign(Page& page, const MapFrame& frame, const std::vector<earth::GridPoint>& ring);

}  // namespace lodeway::sheet
