#pragma once
/// Building a ground file from elevation and map files, and saying what a ground holds.
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

struct BuildRequest {
  std::string out;                     ///< the ground file, ending in .gpkg
  std::string name;                    ///< empty: the file's name without its ending
  std::vector<std::string> elevation;  ///< where two have a height the earlier one counts
  std::vector<std::string> features;
  std::string crs;                              ///< empty: the UTM zone of the centre
  double cell_m = 0;                            ///< 0: the finest elevation file's own
  std::optional<std::array<double, 4>> bounds;  ///< as io::ElevationRequest::bounds
  std::string kinds;                            ///< a user's kinds file, or empty
  /// "FILE=TEXT" for one file (its name without folders), "TEXT" for every file that has none yet.
  std::vector<std::string> licences, attributions;
  bool dry_flats = false;  ///< dead-flat ground is land, not probable water
};

/// What a ground holds, and what it lacks.
struct GroundSummary {
  std::string name, crs;
  int epsg = 0;
  terrain::Frame frame;
  double void_share = 0, min_m = 0, max_m = 0;
  struct OfKind {
    mapdata::Kind kind;
    std::int64_t count = 0;
    std::int64_t from_relief = 0;  ///< of count: not on the map, worked out from the heights
    double length_km = 0;          ///< of lines
  };
  std::vector<OfKind> kinds;  ///< those that occur, in the order of mapdata::Kind
  struct OfLandform {
    terrain::Landform form;
    double share = 0;  ///< of the cells whose form is known
  };
  std::vector<OfLandform> landforms;  ///< those that occur; empty when the file has none
  std::vector<mapdata::Source> sources;
  std::vector<std::string> missing;  ///< a sentence each
  std::vector<std::string> remarks;  ///< of building only: what was left out or mended
};

[[nodiscard]] GroundSummary summarise(const walking::Ground& ground);

/// Reads; derives wood edges, shores, and what the relief gives (tasks/derive.hpp); writes. Nothing
/// is left half-written. Faults: those of io::read_elevation, read_features, read_osm,
/// read_kind_rules, save_ground, overlap_remarks (no map file lies on the heights); bad_input when
/// `out` is one of the files to read or does not end in .gpkg.
[[nodiscard]] Result<GroundSummary> build_ground(const BuildRequest& request,
                                                 Progress* progress = nullptr);

/// Faults: as io::open_ground.
[[nodiscard]] Result<GroundSummary> show_ground(const std::string& path,
                                                Progress* progress = nullptr);

/// A picture of the ground, 250 mm on its longer side at 150 dots an inch. Faults: as open_ground;
/// io_failed.
[[nodiscard]] Result<void> picture_ground(const std::string& path, const std::string& png,
                                          Progress* progress = nullptr);

/// The same with a shade over all cells where `seen` (of the elevation's frame) is 0, and a ring
/// about each eye. Faults: io_failed.
[[nodiscard]] Result<void> picture_seen(const walking::Ground& ground,
                                        const terrain::Raster<std::uint8_t>& seen,
                                        std::span<const earth::GridPoint> eyes,
                                        const std::string& png);

/// Keys: docs/method/ground-file.md.
[[nodiscard]] std::string ground_json(const GroundSummary& summary);

}  // namespace lodeway::tasks
