#pragma once
/// Rasters as files that any map program opens.
#include <array>
#include <cstdint>
#include <string>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::io {

/// GeoTIFF, 32-bit floats, deflated, with the grid's CRS; NaN is no data.
/// Faults: io_failed; then nothing is left.
[[nodiscard]] Result<void> write_geotiff(const terrain::Raster<float>& values,
                                         const earth::MapGrid& grid, const std::string& path);

/// Red, green, blue.
using Colour = std::array<std::uint8_t, 3>;
/// PNG, one pixel a cell, north up. Faults: io_failed; then nothing is left.
[[nodiscard]] Result<void> write_picture(const terrain::Raster<Colour>& picture,
                                         const std::string& path);

}  // namespace lodeway::io
