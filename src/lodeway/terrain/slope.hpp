#pragma once
/// Steepness and fall of the ground. Source: Horn 1981, Proc. IEEE 69:14-47 (3 x 3 window).
/// Fit for rough ground; never compare its aspects with another method's
/// (docs/method/slope-and-aspect.md).
#include "lodeway/terrain/raster.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::terrain {

/// Change of height for one metre of going east and north. NaN where unknown.
struct Gradient {
  double east = 0, north = 0;
};

/// Horn's gradient at a cell. A missing neighbour (void, or beyond the rim) is taken as far above
/// the middle as its opposite is below, so an even slope stays exact beside voids and at the rim;
/// without a known opposite the middle's height stands for it. A void middle gives NaN.
[[nodiscard]] Gradient gradient(const Elevation& heights, int row, int col);
/// Bilinear between the four nearest cells' gradients; NaN outside or beside a void.
[[nodiscard]] Gradient gradient_at(const Elevation& heights, earth::GridPoint p);

/// Steepest slope, degrees, 0 to 90.
[[nodiscard]] double slope_deg(Gradient g);
/// The direction in which the ground falls, from GRID north; of no meaning where it is flat.
[[nodiscard]] units::GridBearing fall_line(Gradient g);
[[nodiscard]] double slope_deg_at(const Elevation& heights, earth::GridPoint p);

/// Slope of every cell, degrees; NaN where the height is void. Within 1e-4 degrees of slope_deg.
[[nodiscard]] Raster<float> slope_raster(const Elevation& heights);
/// Light falling from north-west at 45 degrees, 0 (dark) to 1 (full); flat ground 0.707; NaN in
/// voids.
[[nodiscard]] Raster<float> relief_shade(const Elevation& heights, double steepen = 1.0);

}  // namespace lodeway::terrain
