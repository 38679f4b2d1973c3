#include "lodeway/terrain/raster.hpp"

#include <algorithm>
#include <limits>

namespace lodeway::terrain {

double height_at(const Elevation& heights, earth::GridPoint p) {
  const Frame& f = heights.frame();
  if (!f.contains(p)) return std::numeric_limits<double>::quiet_NaN();
  const double row = std::clamp(f.row_of(p), 0.0, f.rows - 1.0);
  const double col = std::clamp(f.col_of(p), 0.0, f.cols - 1.0);
  const int r = std::min(static_cast<int>(row), std::max(f.rows - 2, 0));
  const int c = std::min(static_cast<int>(col), std::max(f.cols - 2, 0));
  const int below = std::min(r + 1, f.rows - 1), right = std::min(c + 1, f.cols - 1);
  const double v = row - r, u = col - c;
  const auto z = [&](int i, int j) { return static_cast<double>(heights[i, j]); };
  const double north = z(r, c) + u * (z(r, right) - z(r, c));
  const double south = z(below, c) + u * (z(below, right) - z(below, c));
  const double height = north + v * (south - north);
  return std::abs(height) < static_cast<double>(no_height)
             ? height
             : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace lodeway::terrain
