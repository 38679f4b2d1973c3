#pragma once
/// Lines of equal height, chained. Method: docs/method/contours.md
#include <vector>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

/// Higher ground lies to the RIGHT of the line's direction. A closed line does not repeat its first
/// point.
struct Contour {
  double height_m = 0;
  bool closed = false;
  std::vector<earth::GridPoint> points;
};

/// Contours at every multiple of `interval_m` (above 0), by marching squares over cell centres with
/// linear interpolation; in a square whose corners alternate, the mean of the four decides. Heights
/// that equal a level are taken as just above it. Lines end at voids and at the rim. None at all
/// when the heights span more than four million intervals. Ordered by height, then by the place of
/// their first square (rows from the north). Accuracy: exact for the piecewise linear edges of the
/// height model.
[[nodiscard]] std::vector<Contour> contours(const Elevation& heights, double interval_m);

}  // namespace lodeway::terrain
