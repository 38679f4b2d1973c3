#pragma once
/// The chance to set foot on ground that must not be trodden.
#include <cstdint>
#include <span>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::reckoning {

/// 1 where no one may set foot, 0 elsewhere; the same frame as the elevation.
using Forbidden = terrain::Raster<std::uint8_t>;

struct Walk {
  earth::GridPoint from;
  double bearing = 0;          ///< grid, radians
  double length_m = 0;         ///< reckoned
  double angle_sigma = 0;      ///< of the walked direction, radians: cross sigma / length
  double along_sigma_m = 0;
  double beyond_m = 0;         ///< walked on past the reckoned end
  double seen_from_m = 0;      ///< those who pass the end within it stop there; 0: it stops all
  std::span<const earth::GridPoint> stopped_by = {};  ///< a line that stops all who meet it
};

/// Integral over the walked direction: each ray is walked in steps of half a cell until it meets forbidden
/// ground; past the reckoned end it counts with the chance that the party is still walking. An upper bound:
/// nobody looks up. Ground outside the raster does not count. Within 0.01 of a finer integration.
[[nodiscard]] double hazard_probability(const Forbidden& forbidden, const Walk& walk);

}  // namespace lodeway::reckoning
