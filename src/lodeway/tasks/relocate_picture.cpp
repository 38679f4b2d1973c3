#include <algorithm>
#include <cmath>

#include "lodeway/io/raster/write_raster.hpp"
#include "lodeway/tasks/detail/relocate_parts.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::tasks::detail {

namespace {
using io::Colour;

/// The least share that is within the smallest area of 99 in 100.
double level99(const belief::Belief& b) {
  std::vector<float> shares;
  for (const float v : b.share) {
    if (v > 0) shares.push_back(v);
  }
  std::ranges::sort(shares, std::greater{});
  double all = 0, held = 0;
  for (const float v : shares) all += static_cast<double>(v);
  for (const float v : shares) {
    held += static_cast<double>(v);
    if (held >= 0.99 * all) return static_cast<double>(v);
  }
  return 0;
}

void ring(terrain::Raster<Colour>& picture, earth::GridPoint at, double radius_px, Colour ink) {
  const auto& f = picture.frame();
  const double row = f.row_of(at), col = f.col_of(at);
  for (int r = static_cast<int>(row - radius_px - 2); r <= static_cast<int>(row + radius_px + 2);
       ++r) {
    for (int c = static_cast<int>(col - radius_px - 2); c <= static_cast<int>(col + radius_px + 2);
         ++c) {
      const double d = std::hypot(r - row, c - col);
      if (f.holds(r, c) && std::abs(d - radius_px) < 1.2) picture[r, c] = ink;
    }
  }
}
}  // namespace

Result<void> draw_relocation(const walking::Ground& ground, const Relocation& answer,
                             const std::string& path) {
  const auto& b = answer.belief;
  const int times = std::clamp(1200 / std::max({b.frame.rows, b.frame.cols, 1}), 1, 6);
  terrain::Frame f = b.frame;
  f.cell_m /= times;
  f.rows *= times;
  f.cols *= times;
  terrain::Raster<Colour> picture(f);
  const double light99 = level99(b);
  const double contour_m = 25;
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      const auto at = f.centre(r, c);
      const auto g = terrain::gradient_at(ground.elevation, at);
      const double z = terrain::height_at(ground.elevation, at);
      if (!std::isfinite(z)) {
        picture[r, c] = (r / 6 + c / 6) % 2 == 0 ? Colour{120, 120, 120} : Colour{150, 150, 150};
        continue;
      }
      const double lit =
          std::isfinite(g.east) ? std::clamp(0.8 - 0.5 * (g.north - g.east), 0.35, 1.0) : 1.0;
      double grey = 175 + 75 * lit;
      // a contour where the height crosses a multiple within this pixel
      const double across = std::max(std::hypot(g.east, g.north) * f.cell_m, 0.02);
      if (std::abs(std::remainder(z, contour_m)) < 0.5 * across) grey -= 55;
      double red = grey, green = grey, blue = grey;
      const auto share = static_cast<double>(
          b.share[static_cast<std::size_t>(r / times) * static_cast<std::size_t>(b.frame.cols) +
                  static_cast<std::size_t>(c / times)]);
      const double ink = share <= 0                        ? 0
                         : share >= answer.summary.level50 ? 0.85
                         : share >= answer.summary.level90 ? 0.55
                         : light99 > 0 && share >= light99 ? 0.25
                                                           : 0;
      red += ink * (150 - red);
      green += ink * (20 - green);
      blue += ink * (60 - blue);
      picture[r, c] = {static_cast<std::uint8_t>(red), static_cast<std::uint8_t>(green),
                       static_cast<std::uint8_t>(blue)};
    }
  }
  if (answer.last) ring(picture, *answer.last, 10, {20, 60, 160});
  for (const auto& place : answer.places) ring(picture, place.part.best, 6, {0, 0, 0});
  return io::write_picture(picture, path);
}

}  // namespace lodeway::tasks::detail
