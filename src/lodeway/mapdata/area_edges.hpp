#pragma once
/// The edges of woods and the shores of lakes, as lines that can be followed.
#include <span>
#include <vector>

#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::mapdata {

struct Limits {
  double west_m = 0, south_m = 0, east_m = 0, north_m = 0;
};

/// Outlines of all areas of one kind as lines of another, with the area's name, each the way of its
/// ring (the area on the left). No edge is: a piece that two such areas share (same end points),
/// one that lies within another such area (both ends and the middle), and one along the limits,
/// where areas were cut. Where two areas overlap without shared points, an edge is kept or dropped
/// a whole segment at a time. Closed outlines repeat their first point. Order: that of the areas.
[[nodiscard]] std::vector<LineFeature> area_edges(std::span<const AreaFeature> areas, Kind kind,
                                                  Kind edge_kind, const Limits& limits);

}  // namespace lodeway::mapdata
