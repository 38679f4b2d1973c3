#pragma once
/// Ridges as a net of polylines. Method, and why this one: docs/method/landforms.md
#include <vector>

#include "lodeway/terrain/streams.hpp"
#include "lodeway/terrain/summits.hpp"

namespace lodeway::terrain {

/// Lines along which the ways of steepest ascent gather, each up to a meeting of ridges or a
/// summit, and links across the key cols between summits. Points run UPHILL; areas are of ground
/// whose steepest ascent comes through; order as for streams, 1 at the foot of a spur. A link has
/// the lower order of the two lines that it joins, no areas and `joins` -1; links stand last.
/// `least_area_m2`: how much ground makes a ridge. `least_prominence_m`: lesser tops do not part a
/// ridge.
[[nodiscard]] std::vector<StreamLine> ridge_lines(const Elevation& heights, double least_area_m2,
                                                  double least_prominence_m);

}  // namespace lodeway::terrain
