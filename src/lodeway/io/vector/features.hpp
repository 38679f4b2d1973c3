#pragma once
/// Map features from files into the ground's grid, each with a kind. How: docs/method/import.md.
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/io/files/progress.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::io {

struct FeatureRequest {
  earth::MapGrid grid;
  terrain::Frame frame;  ///< what lies outside is cut off
  const KindRules* rules = &built_in_rules();
  Progress progress;
};

struct FeaturesRead {
  mapdata::MapData map;
  mapdata::Source source;
  std::vector<std::string> remarks;  ///< what was left out or mended, a sentence each
};

inline constexpr std::int64_t most_feature_points = 20'000'000;

/// GeoPackage, Shapefile or GeoJSON; all layers. Nothing else is opened, whatever the file says.
/// A ring that crosses itself is mended where that changes its area by at most 1 %, and said; else
/// refused. Faults: io_failed; bad_input (file, layer and feature named: no CRS, latitude beyond
/// 90, a ring that crosses itself, cut off); too_large (over 20 million points, or GeoJSON over 512
/// MiB); cancelled.
[[nodiscard]] Result<FeaturesRead> read_features(const std::string& path,
                                                 const FeatureRequest& request);

}  // namespace lodeway::io
