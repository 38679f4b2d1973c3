#pragma once
/// Where a way that is followed becomes another sort of way. Not for use outside route.
#include <vector>

#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

struct WayChange {
  double at_m = 0;     ///< along the line, grid metres
  mapdata::Kind kind;  ///< what it becomes: a road, track or path
};

/// Of a course along a road, track or path: where the one becomes another, by the way of the map that
/// runs on each segment (within 1 m); none of any other course. In order.
[[nodiscard]] std::vector<WayChange> way_changes(const Cutting& c, const walking::Course& course);

}  // namespace lodeway::route
