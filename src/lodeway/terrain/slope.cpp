#include "lodeway/terrain/slope.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lodeway::terrain {

namespace {
constexpr double deg = 180 / std::numbers::pi;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
}  // namespace

Gradient gradient(const Elevation& heights, int row, int col) {
  const double middle = static_cast<double>(heights[row, col]);
  if (!std::isfinite(middle)) return {nan, nan};
  const auto z = [&](int dr, int dc) {
    const int r = row + dr, c = col + dc;
    if (!heights.frame().holds(r, c)) return middle;
    const double v = static_cast<double>(heights[r, c]);
    return std::isfinite(v) ? v : middle;
  };
  const double eight = 8 * heights.frame().cell_m;
  const double nw = z(-1, -1), n = z(-1, 0), ne = z(-1, 1), w = z(0, -1), e = z(0, 1), sw = z(1, -1),
               s = z(1, 0), se = z(1, 1);
  return {((ne + 2 * e + se) - (nw + 2 * w + sw)) / eight, ((nw + 2 * n + ne) - (sw + 2 * s + se)) / eight};
}

Gradient gradient_at(const Elevation& heights, earth::GridPoint p) {
  const Frame& f = heights.frame();
  if (!f.contains(p)) return {nan, nan};
  const double row = std::clamp(f.row_of(p), 0.0, f.rows - 1.0), col = std::clamp(f.col_of(p), 0.0, f.cols - 1.0);
  const int r = std::min(static_cast<int>(row), std::max(f.rows - 2, 0));
  const int c = std::min(static_cast<int>(col), std::max(f.cols - 2, 0));
  const int below = std::min(r + 1, f.rows - 1), right = std::min(c + 1, f.cols - 1);
  const double v = row - r, u = col - c;
  const Gradient a = gradient(heights, r, c), b = gradient(heights, r, right), d = gradient(heights, below, c),
                 e = gradient(heights, below, right);
  const auto mix = [&](double nw, double ne, double sw, double se) {
    return (1 - v) * ((1 - u) * nw + u * ne) + v * ((1 - u) * sw + u * se);
  };
  return {mix(a.east, b.east, d.east, e.east), mix(a.north, b.north, d.north, e.north)};
}

double slope_deg(Gradient g) { return std::atan(std::hypot(g.east, g.north)) * deg; }

units::GridBearing fall_line(Gradient g) {
  return units::GridBearing::degrees(std::atan2(-g.east, -g.north) * deg);
}

double slope_deg_at(const Elevation& heights, earth::GridPoint p) { return slope_deg(gradient_at(heights, p)); }

Raster<float> slope_raster(const Elevation& heights) {
  Raster<float> out(heights.frame());
  for (int r = 0; r < heights.rows(); ++r) {
    for (int c = 0; c < heights.cols(); ++c) out[r, c] = static_cast<float>(slope_deg(gradient(heights, r, c)));
  }
  return out;
}

Raster<float> relief_shade(const Elevation& heights, double steepen) {
  Raster<float> out(heights.frame());
  const double up = std::sqrt(0.5), flat = 0.5;  // the light's direction: up, and north-west
  for (int r = 0; r < heights.rows(); ++r) {
    for (int c = 0; c < heights.cols(); ++c) {
      const Gradient g = gradient(heights, r, c);
      const double e = steepen * g.east, n = steepen * g.north;
      const double lit = (up + flat * (e - n)) / std::sqrt(1 + e * e + n * n);
      out[r, c] = static_cast<float>(std::isfinite(lit) ? std::max(0.0, lit) : nan);
    }
  }
  return out;
}

}  // namespace lodeway::terrain
