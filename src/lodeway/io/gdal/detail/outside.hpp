#pragma once
/// What comes from outside opens nothing but itself. Internal to io.
#include <memory>
#include <string>

#include <ogr_spatialref.h>

#include "lodeway/io/files/progress.hpp"
#include "lodeway/io/gdal/detail/talk.hpp"

namespace lodeway::io {

/// Around every opening and reading of one file that somebody else made, on this thread. While it
/// lives
///   - GDAL opens for reading this file and the few beside it that belong to its format, by ending:
///     .shp its .shx .dbf .prj .cpg, .tif its .tfw, .asc and .bt their .prj, .img its .ige; no
///     other file, folder or device, whatever the file says;
///   - nothing is written;
///   - every question to SQLite looks at `progress` at least each 100 ms, and has a budget that a
///     file of this size cannot use up honestly: 2 x 10^7 steps of its machine and 50 a byte.
/// Network and archives are switched off for the whole process (`gdal_ready`).
class Outside {
 public:
  Outside(const std::string& path, const Progress& progress);
  ~Outside();
  Outside(const Outside&) = delete;
  Outside& operator=(const Outside&) = delete;

  /// By one of the named drivers only, whatever the file calls itself; null when none takes it or
  /// the file is refused: then GDAL has said why. An SQLite file that is not plain (`not_plain`) is
  /// refused unread. `options`: GDAL's, may be null.
  [[nodiscard]] Dataset open(unsigned flags, const char* const* drivers,
                             const char* const* options = nullptr) const;
  /// Was a question to SQLite ended because `progress` said so?
  [[nodiscard]] bool stopped() const;

  struct Fence;

 private:
  std::unique_ptr<Fence> fence_;
};

/// Files whose name must not begin with what GDAL takes for a command ("GPKG:…").
[[nodiscard]] std::string as_path(const std::string& path);

/// Why an SQLite file may not be read, empty when it may: tables, indexes and triggers only (a
/// reader fires none), at most 1 000 of them; no view, no virtual table but indexes of places
/// (rtree), no computed column: those run what their maker wrote whenever they are read. Asked
/// within an `Outside`.
[[nodiscard]] std::string not_plain(const std::string& path);

/// Switches off what reaches beyond this machine or into other files: called once by `gdal_ready`.
void close_to_outside();

/// Does a coordinate system name files, such as grids of a datum shift? A file from outside may not.
[[nodiscard]] bool names_files(const OGRSpatialReference& crs);

}  // namespace lodeway::io
