#pragma once
/// A finished way as KML 2.2 (OGC 07-147r2): one folder of legs as lines, one of places. WGS 84.
#include <string>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/trip/planned_leg.hpp"

namespace lodeway::io {

/// One Placemark a leg (LineString, clamped to the ground) with its bearing, length and minutes in
/// words, one a place (Point). Longitude comes first, 7 decimals: 1.2 cm. Written beside, renamed.
/// Faults: outside_validity (a place that the grid does not reach), io_failed.
[[nodiscard]] Result<void> write_kml(const trip::PlannedWay& way, const earth::MapGrid& grid,
                                     const std::string& path);

}  // namespace lodeway::io
