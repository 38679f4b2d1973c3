#pragma once
/// Heights along a line on the ground.
#include <vector>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

struct ProfilePoint {
  double at_m = 0;      ///< along the line, grid metres
  double height_m = 0;  ///< NaN where unknown
};

struct Profile {
  std::vector<ProfilePoint> points;
  double ascent_m = 0, descent_m = 0;  ///< over the known stretches
  double along_slope_m = 0;            ///< length measured up and down the slopes, known stretches
  bool touches_void = false;
};

/// Sampled at the line's own points and at most one cell apart (a stretch of more than a million
/// cells in a million steps). The line needs two points. Accuracy: ascent is that of the sampled
/// heights; small humps of the height model's noise count.
[[nodiscard]] Profile profile(const Elevation& heights, const std::vector<earth::GridPoint>& line);
/// Totals of points already known. A stretch beside a NaN is not counted and sets touches_void.
[[nodiscard]] Profile profile_of(std::vector<ProfilePoint> points);

}  // namespace lodeway::terrain
