#pragma once
/// Map features from an OpenStreetMap extract.
#include <string>

#include "lodeway/io/vector/features.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// By its name: .pbf, .osm, .osm.gz, .osm.bz2.
[[nodiscard]] bool is_osm(const std::string& path);

/// Nodes to points, ways to lines, closed ways and multipolygon relations to areas with their
/// holes. Areas that cannot be assembled and ways whose nodes are not in the file are counted in
/// the remarks. Faults: io_failed; bad_input (cut off, not OpenStreetMap data); too_large (over 100
/// million nodes: cut it to the area first); cancelled.
[[nodiscard]] Result<FeaturesRead> read_osm(const std::string& path, const FeatureRequest& request);

}  // namespace lodeway::io
