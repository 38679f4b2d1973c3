#include <algorithm>
#include <cmath>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/noise.hpp"
#include "lodeway/fells/relief.hpp"

namespace lodeway::fells {

void cut_crags(terrain::Raster<double>& heights, std::uint64_t seed, numeric::Parallel& parallel) {
  const auto& frame = heights.frame();
  constexpr double below_m = 320, above_m = 160;  // how far the step is felt on either side
  for (const auto& crag : design::crags()) {
    double length = 0;
    for (std::size_t i = 0; i + 1 < crag.line.size(); ++i) {
      const double dx = 1000 * (crag.line[i + 1].x_km - crag.line[i].x_km);
      const double dy = 1000 * (crag.line[i + 1].y_km - crag.line[i].y_km);
      length += std::sqrt(dx * dx + dy * dy);
    }
    double x_low = 1e9, x_high = -1e9, y_low = 1e9, y_high = -1e9;
    for (const auto& k : crag.line) {
      x_low = std::min(x_low, 1000 * k.x_km - 400), x_high = std::max(x_high, 1000 * k.x_km + 400);
      y_low = std::min(y_low, 1000 * k.y_km - 400), y_high = std::max(y_high, 1000 * k.y_km + 400);
    }
    for_each_row(parallel, frame.rows, [&](int r) {
      for (int c = 0; c < frame.cols; ++c) {
        const double x0 = frame.cell_m * (c + 0.5), y0 = design::size_m - frame.cell_m * (r + 0.5);
        if (x0 < x_low || x0 > x_high || y0 < y_low || y0 > y_high) continue;
        const double x = x0 + 28 * fractal_noise(seed + 71, x0 / 150, y0 / 150, 3);
        const double y = y0 + 28 * fractal_noise(seed + 72, x0 / 150, y0 / 150, 3);
        // Nearest point of the crag's line: signed distance, falling side positive; place along it.
        double best = 1e18, side = 0, along = 0, run = 0;
        for (std::size_t i = 0; i + 1 < crag.line.size(); ++i) {
          const double ax = 1000 * crag.line[i].x_km, ay = 1000 * crag.line[i].y_km;
          const double dx = 1000 * crag.line[i + 1].x_km - ax,
                       dy = 1000 * crag.line[i + 1].y_km - ay;
          const double len = std::sqrt(dx * dx + dy * dy);
          const double free = ((x - ax) * dx + (y - ay) * dy) / (len * len);
          const double t = std::clamp(free, 0.0, 1.0);
          const double ex = x - ax - t * dx, ey = y - ay - t * dy;
          const double d2 = ex * ex + ey * ey;
          if (d2 < best) {
            best = d2;
            const double left = dx * (y - ay) - dy * (x - ax);
            side = (left > 0) == crag.falls_left ? 1 : -1;
            along = (run + t * len) / length;
          }
          run += len;
        }
        const double s = side * std::sqrt(best);
        if (s > below_m || s < -above_m) continue;
        const double window = smooth_step(0.0, 0.22, along) * smooth_step(1.0, 0.78, along);
        const double drop =
            crag.drop_m * window * (0.85 + 0.35 * gradient_noise(seed + 73, x0 / 110, y0 / 110));
        const double face = smooth_step(-6, 16, s);
        const double low = -0.65 * drop * face * smooth_step(below_m, 16, s);
        const double high = 0.35 * drop * (1 - face) * smooth_step(-above_m, 0, s);
        heights[r, c] += low + high;
      }
    });
  }
}

}  // namespace lodeway::fells
