#pragma once
/// Water to wade. Not for use outside route. Method: docs/method/choosing-the-way.md
#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// How often a leg crosses a stream or river by neither bridge nor ford of the map (none within
/// Cover::at_bridge_m): on a bearing, or along what has no way over of its own (a wall, wires). Water
/// that it begins or ends at is not crossed. Along a road, track, path or water 0.
[[nodiscard]] int wades(const Cutting& c, const walking::Course& course);

/// What search and choice count for them: each is a stop like a leg's end, to look, choose the place
/// and cross.
[[nodiscard]] double wading_s(const Cutting& c, const walking::Course& course);

}  // namespace lodeway::route
