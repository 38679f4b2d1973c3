#include <algorithm>
#include <limits>

#include "lodeway/reckoning/judge/hazard.hpp"

namespace lodeway::reckoning {

namespace {
// Borgefors 1986, Computer Vision, Graphics, and Image Processing 34:344-371: two passes with steps
// of 12 to the next cell and 17 across a corner; at most the root of 1 + (17/12 - 1)^2 too long.
constexpr int next = 12, corner = 17;
constexpr std::int16_t far = 32000;
constexpr double too_long = 1.08334;

std::int16_t nearer(std::int16_t a, std::int16_t b, int step) {
  return std::min(a, static_cast<std::int16_t>(b + step));
}

/// What the row before it makes of a row.
void from_row(std::span<std::int16_t> row, std::span<const std::int16_t> before) {
  const std::size_t n = row.size();
  for (std::size_t c = 0; c < n; ++c) row[c] = nearer(row[c], before[c], next);
  for (std::size_t c = 1; c < n; ++c) row[c] = nearer(row[c], before[c - 1], corner);
  for (std::size_t c = 0; c + 1 < n; ++c) row[c] = nearer(row[c], before[c + 1], corner);
}
}  // namespace

HazardGround::HazardGround(Forbidden cells) : cells_(std::move(cells)) {
  if (cells_.empty()) return;
  const auto& f = cells_.frame();
  per_cell_ = 1 / f.cell_m;
  away_ = terrain::Raster<std::int16_t>(f, far);
  unit_m_ = f.cell_m / (next * too_long);
  // from a cell's rim to another's is as far as from its centre to the nearest of those about it
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      if (cells_[r, c] == 0) continue;
      any_ = true;
      for (int i = std::max(r - 1, 0); i <= std::min(r + 1, f.rows - 1); ++i) {
        for (int k = std::max(c - 1, 0); k <= std::min(c + 1, f.cols - 1); ++k) away_[i, k] = 0;
      }
    }
  }
  for (int r = 0; r < f.rows; ++r) {
    const auto row = away_.row(r);
    if (r > 0) from_row(row, away_.row(r - 1));
    for (std::size_t c = 1; c < row.size(); ++c) row[c] = nearer(row[c], row[c - 1], next);
  }
  for (int r = f.rows - 1; r >= 0; --r) {
    const auto row = away_.row(r);
    if (r + 1 < f.rows) from_row(row, away_.row(r + 1));
    for (std::size_t c = row.size() - 1; c-- > 0;) row[c] = nearer(row[c], row[c + 1], next);
  }
  for (std::size_t i = 0; i < f.size(); ++i) {
    if (cells_.cells()[i] != 0) away_.cells()[i] = -1;
  }
}

double HazardGround::clear_outside_m(earth::GridPoint p) const {
  if (!any_) return std::numeric_limits<double>::infinity();
  const auto& f = cells_.frame();
  const earth::GridPoint inside{std::clamp(p.east_m, f.west_m, f.east_m()),
                                std::clamp(p.north_m, f.south_m(), f.north_m)};
  return earth::grid_distance_m(p, inside);
}

}  // namespace lodeway::reckoning
