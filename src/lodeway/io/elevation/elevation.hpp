#pragma once
/// Heights from files into the ground's own grid: read, mosaicked, reprojected, resampled.
/// How, and how exactly: docs/method/import.md.
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/io/files/progress.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::io {

struct ElevationRequest {
  std::vector<std::string> files;  ///< where two have a height the earlier one counts
  std::string crs;                 ///< "EPSG:25832"; empty: the UTM zone of the centre
  double cell_m = 0;               ///< 0: the finest file's own cell
  /// West, south, east, north: degrees (WGS 84) when all four could be, else metres of the ground's
  /// grid. Snapped outwards to whole cells. Nothing: all that the files hold.
  std::optional<std::array<double, 4>> bounds;
};

struct ElevationRead {
  earth::MapGrid grid;
  terrain::Elevation heights;
  std::vector<mapdata::Source> sources;
  bool whole_metres = false;         ///< one file at least gives them so
  std::vector<std::string> remarks;  ///< what was done that is not plain, a sentence each
};

inline constexpr std::int64_t most_cells = 400'000'000;

/// Cells of a file that has the ground's grid and cell (to 0.001 cell) come through bit for bit;
/// others by bilinear interpolation, place exact to 0.01 cell; where the ground's cell is twice the
/// file's or more, by GDAL's bilinear kernel widened to it (0.05 cell). Heights in feet become
/// metres; no-data, NaN, infinite, and heights beyond -12 000 to 9 000 m are void. Faults:
/// io_failed; bad_input (no CRS, no place, cut off, not heights, only voids, bounds outside);
/// outside_validity (the poles without a CRS given); too_large (over 400 million cells); cancelled.
[[nodiscard]] Result<ElevationRead> read_elevation(const ElevationRequest& request,
                                                   const Progress& progress = {});

}  // namespace lodeway::io
