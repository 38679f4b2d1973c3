#pragma once
/// The ground file: everything known about an area as one OGC GeoPackage that any GIS opens.
/// Its tables: docs/method/ground-file.md.
#include <string>
#include <vector>

#include "lodeway/io/files/progress.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/walking/piece.hpp"

namespace lodeway::io {

/// Heights (32-bit), coordinates (64-bit), texts and voids come back exactly; the same ground gives
/// the same bytes. Written beside, then renamed.
/// Faults: io_failed when the folder cannot be written to or the disk is full; then nothing is
/// left.
[[nodiscard]] Result<void> save_ground(const walking::Ground& ground, const std::string& path);

/// Faults: io_failed (cannot be read); bad_input (not a ground file, or a value in it that cannot
/// be, a place more than 1 000 km beside the heights among them: says the table and row; a view or
/// another thing that runs what its maker wrote); too_large (over 400 million cells or 50 million
/// points); cancelled.
[[nodiscard]] Result<walking::Ground> open_ground(const std::string& path,
                                                  const Progress& progress = {});

/// What is known of a ground file without reading its heights and features.
struct GroundHead {
  std::string name;
  earth::MapGrid grid;
  terrain::Frame frame;  ///< of the heights
};
/// Faults: as open_ground.
[[nodiscard]] Result<GroundHead> ground_head(const std::string& path);

/// Where the points of the file lie that are called so, letter by letter, in the file's order; most
/// names give none or one. Takes what the file's rows of points take to look through: some
/// milliseconds for 100 000. Faults: as open_ground.
[[nodiscard]] Result<std::vector<earth::GridPoint>> points_called(const std::string& path,
                                                                  const std::string& name);

/// As walking::piece_of the whole ground; only that piece is read, and only what is read is
/// checked. Most of the file is never touched: it takes the time that the piece takes.
[[nodiscard]] Result<walking::Ground> open_piece(const std::string& path, const walking::Box& box,
                                                 const Progress& progress = {});

}  // namespace lodeway::io
