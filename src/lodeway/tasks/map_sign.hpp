#pragma once
/// One sign of the map, as the sheet and the tiles draw it: for a legend that cannot disagree.
#include <string>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::tasks {

/// Pixels of a sign at one dot a pixel, at 1:25 000 on a screen of 96 dots an inch.
inline constexpr int sign_wide_px = 56, sign_high_px = 24;

/// A piece of level ground with one thing of the kind on it, as PNG: a line runs across, a surface
/// fills all but an edge, a point stands in the middle. Kinds that the map does not draw give level
/// ground. `dots` 1 or 2 a pixel. Faults: those of io::paint.
[[nodiscard]] Result<std::string> map_sign(mapdata::Kind kind, int dots, bool dark);

}  // namespace lodeway::tasks
