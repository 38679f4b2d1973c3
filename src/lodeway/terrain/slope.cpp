#include "lodeway/terrain/slope.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "lodeway/terrain/detail/arc_tangent.hpp"

namespace lodeway::terrain {

namespace {
constexpr double deg = 180 / std::numbers::pi;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
}  // namespace

Gradient gradient(const Elevation& heights, int row, int col) {
  const auto z = [&](int dr, int dc) {
    const int r = row + dr, c = col + dc;
    const bool known = heights.frame().holds(r, c) && is_height(heights[r, c]);
    return known ? static_cast<double>(heights[r, c]) : nan;
  };
  const double middle = z(0, 0);
  if (std::isnan(middle)) return {nan, nan};
  double nw = z(-1, -1), n = z(-1, 0), ne = z(-1, 1), w = z(0, -1), e = z(0, 1), sw = z(1, -1),
         s = z(1, 0), se = z(1, 1);
  const auto complete = [&](double& a, double& b, double neither_a, double neither_b) {
    const double a_known = a;
    if (std::isnan(a)) a = std::isnan(b) ? neither_a : 2 * middle - b;
    if (std::isnan(b)) b = std::isnan(a_known) ? neither_b : 2 * middle - a_known;
  };
  complete(n, s, middle, middle);
  complete(w, e, middle, middle);
  complete(nw, se, n + w - middle, s + e - middle);
  complete(ne, sw, n + e - middle, s + w - middle);
  const double eight = 8 * heights.frame().cell_m;
  return {((ne + 2 * e + se) - (nw + 2 * w + sw)) / eight,
          ((nw + 2 * n + ne) - (sw + 2 * s + se)) / eight};
}

Gradient gradient_at(const Elevation& heights, earth::GridPoint p) {
  const Frame& f = heights.frame();
  if (!f.contains(p)) return {nan, nan};
  const double row = std::clamp(f.row_of(p), 0.0, f.rows - 1.0),
               col = std::clamp(f.col_of(p), 0.0, f.cols - 1.0);
  const int r = std::min(static_cast<int>(row), std::max(f.rows - 2, 0));
  const int c = std::min(static_cast<int>(col), std::max(f.cols - 2, 0));
  const int below = std::min(r + 1, f.rows - 1), right = std::min(c + 1, f.cols - 1);
  const double v = row - r, u = col - c;
  const Gradient a = gradient(heights, r, c), b = gradient(heights, r, right),
                 d = gradient(heights, below, c), e = gradient(heights, below, right);
  const auto mix = [&](double nw, double ne, double sw, double se) {
    return (1 - v) * ((1 - u) * nw + u * ne) + v * ((1 - u) * sw + u * se);
  };
  return {mix(a.east, b.east, d.east, e.east), mix(a.north, b.north, d.north, e.north)};
}

double slope_deg(Gradient g) { return std::atan(std::hypot(g.east, g.north)) * deg; }

units::GridBearing fall_line(Gradient g) {
  return units::GridBearing::degrees(std::atan2(-g.east, -g.north) * deg);
}

double slope_deg_at(const Elevation& heights, earth::GridPoint p) {
  return slope_deg(gradient_at(heights, p));
}

/// Whole inner rows in a plain loop that vectorises and leaves NaN wherever a neighbour is missing;
/// those cells and the rim are then done one by one.
Raster<float> slope_raster(const Elevation& heights) {
  Raster<float> out(heights.frame(), std::numeric_limits<float>::quiet_NaN());
  const auto per_cell = static_cast<float>(1 / (8 * heights.frame().cell_m));
  const auto inner = [=](const float* north, const float* own, const float* south, float* out_row,
                         std::size_t n) {
    const float *nw = north - 1, *ne = north + 1, *w = own - 1, *e = own + 1, *sw = south - 1,
                *se = south + 1;
    for (std::size_t c = 0; c < n; ++c) {
      // Differences of near heights first: in 32 bits they lose nothing that the heights hold.
      const float a = se[c] - nw[c], b = ne[c] - sw[c];
      const float gx = (a + b + 2.0F * (e[c] - w[c])) * per_cell;
      const float gy = (b - a + 2.0F * (north[c] - south[c])) * per_cell;
      const float deg_slope = 57.2957795F * detail::arc_tangent(std::sqrt(gx * gx + gy * gy));
      out_row[c] = deg_slope + 0.0F * own[c];  // a void middle is NaN too
    }
  };
  const int rows = heights.rows(), cols = heights.cols();
  for (int r = 0; r < rows; ++r) {
    if (r > 0 && r + 1 < rows && cols > 2) {
      inner(heights.row(r - 1).data() + 1, heights.row(r).data() + 1, heights.row(r + 1).data() + 1,
            out.row(r).data() + 1, static_cast<std::size_t>(cols - 2));
    }
    for (int c = 0; c < cols; ++c) {
      if (std::isnan(out[r, c])) out[r, c] = static_cast<float>(slope_deg(gradient(heights, r, c)));
    }
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
