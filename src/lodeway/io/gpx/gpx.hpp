#pragma once
/// GPX 1.1 (an open exchange format, topografix.com/GPX/1/1): a route read in, a finished way
/// written out; and the same way as GeoJSON (RFC 7946). Both are WGS 84.
#include <string>
#include <vector>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/trip/planned_leg.hpp"

namespace lodeway::io {

struct Mark {
  earth::Geographic at;
  std::string name;
};

/// The points of the file's first route; without one, of its first track; without one, its
/// waypoints. Faults: io_failed (cannot be read), bad_input (no points, a latitude beyond 90),
/// too_large (over 20 000 points or 64 MiB: thin the track first).
[[nodiscard]] Result<std::vector<Mark>> read_gpx(const std::string& path);

/// What the points of read_gpx were: a route is meant to be walked, a track was.
enum class MarksOf : unsigned char { route, track, waypoints };
[[nodiscard]] Result<MarksOf> sort_of_gpx(const std::string& path);

/// One route point a leg's end (named), and the way as a track, by the aim where a leg is aimed
/// off. Written beside, then renamed. Coordinates carry 7 decimals: 1.2 cm.
[[nodiscard]] Result<void> write_gpx(const trip::PlannedWay& way, const earth::MapGrid& grid,
                                     const std::string& path);
/// One LineString a leg with its figures as properties (units in the names).
[[nodiscard]] Result<void> write_geojson(const trip::PlannedWay& way, const earth::MapGrid& grid,
                                         const std::string& path);

}  // namespace lodeway::io
