#pragma once
/// Many tracks by the clock, written as GPX 1.1 or GeoJSON (RFC 7946). Both are WGS 84.
#include <chrono>
#include <string>
#include <vector>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

struct TimedPoint {
  double minutes = 0;  ///< after the base
  earth::GridPoint at;
};
struct TimedTrack {
  std::string name;
  std::string what;  ///< a few words: <desc>, property "what"; may be empty
  std::vector<TimedPoint> points;
};

/// One <trk> a track, times in UTC to 0.01 s. Coordinates carry 7 decimals: 1.2 cm. Written beside,
/// then renamed. `base`: the instant of minute 0. Faults: io_failed.
[[nodiscard]] Result<void> write_gpx_tracks(const std::vector<TimedTrack>& tracks,
                                            const earth::MapGrid& grid,
                                            std::chrono::sys_seconds base, const std::string& path);
/// One LineString a track (a Point where it has one place), properties `name`, `what` and `times`
/// (UTC, one a coordinate). Faults: io_failed.
[[nodiscard]] Result<void> write_geojson_tracks(const std::vector<TimedTrack>& tracks,
                                                const earth::MapGrid& grid,
                                                std::chrono::sys_seconds base,
                                                const std::string& path);

}  // namespace lodeway::io
