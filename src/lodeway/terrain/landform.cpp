#include "lodeway/terrain/landform.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include "lodeway/terrain/detail/arc_tangent.hpp"
#include "lodeway/terrain/detail/basins.hpp"

namespace lodeway::terrain {

namespace {

using enum Landform;

// Rows: directions that are lower, 0 to 8. Columns: directions that are higher, as far as fit.
constexpr std::array<std::array<Landform, 9>, 9> forms{{
    {flat, flat, flat, footslope, footslope, valley, valley, valley, pit},
    {flat, flat, footslope, footslope, footslope, valley, valley, valley},
    {flat, shoulder, slope, slope, hollow, hollow, valley},
    {shoulder, shoulder, slope, slope, slope, hollow},
    {shoulder, shoulder, spur, slope, slope},
    {ridge, ridge, spur, spur},
    {ridge, ridge, ridge},
    {ridge, ridge},
    {summit},
}};

/// What a row of cells sees in one direction: the steepest rise and the steepest fall (as rises).
struct Sights {
  std::vector<float> up, down;
};

void look(const detail::Padded& ground, int row, int direction, int reach, float cell_m,
          Sights& sights) {
  constexpr float far = std::numeric_limits<float>::infinity();
  std::ranges::fill(sights.up, -far);
  std::ranges::fill(sights.down, far);
  const auto k = static_cast<std::size_t>(direction);
  const int dr = detail::down_rows[k], dc = detail::down_cols[k];
  const float length = cell_m * (direction % 2 == 0 ? 1.0F : 1.41421356F);
  const float* own = ground.z.data() + ground.at(row, 0);
  for (int step = 1; step <= reach; ++step) {
    const int r = row + step * dr;
    const int from = std::max(0, -step * dc), to = std::min(ground.cols, ground.cols - step * dc);
    if (r < 0 || r >= ground.rows || from >= to) break;
    const float per_length = 1.0F / (length * static_cast<float>(step));
    const float* seen = ground.z.data() + ground.at(r, 0) + step * dc;
    float *up = sights.up.data(), *down = sights.down.data();
    for (auto c = static_cast<std::size_t>(from); c < static_cast<std::size_t>(to); ++c) {
      const float rise = (seen[c] - own[c]) * per_length;  // NaN wins no comparison
      up[c] = rise > up[c] ? rise : up[c];
      down[c] = rise < down[c] ? rise : down[c];
    }
  }
}

}  // namespace

std::string_view landform_name(Landform form) {
  constexpr std::array<std::string_view, 11> names{"unknown",   "flat",   "summit", "ridge",
                                                   "shoulder",  "spur",   "slope",  "hollow",
                                                   "footslope", "valley", "pit"};
  return names[static_cast<std::size_t>(form)];
}

Landform landform_of(int lower, int higher) {
  assert(lower >= 0 && higher >= 0 && lower + higher <= 8);
  return forms[static_cast<std::size_t>(lower)][static_cast<std::size_t>(higher)];
}

Raster<Landform> landforms(const Elevation& heights, LandformScale scale) {
  Raster<Landform> out(heights.frame());
  if (heights.empty()) return out;
  const detail::Padded ground(heights);
  const auto cols = static_cast<std::size_t>(ground.cols);
  const auto cell_m = static_cast<float>(heights.frame().cell_m);
  const int most = std::max(ground.rows, ground.cols);
  const auto level = static_cast<float>(scale.flat_deg / 57.29577951308232);
  Sights sights{std::vector<float>(cols), std::vector<float>(cols)};
  std::vector<std::int32_t> lower(cols), higher(cols), known(cols);
  for (int r = 0; r < ground.rows; ++r) {
    std::ranges::fill(lower, 0);
    std::ranges::fill(higher, 0);
    std::ranges::fill(known, 0);
    for (int k = 0; k < 8; ++k) {
      const double cells = scale.reach_m / heights.frame().cell_m / (k % 2 == 0 ? 1.0 : 1.41421356);
      const int reach = static_cast<int>(std::clamp(cells, 1.0, static_cast<double>(most)));
      look(ground, r, k, reach, cell_m, sights);
      for (std::size_t c = 0; c < cols; ++c) {
        // Nadir less zenith angle (90 + fall) - (90 - rise); both seen as rises.
        const float lead = detail::arc_tangent(sights.up[c]) + detail::arc_tangent(sights.down[c]);
        higher[c] += lead > level ? 1 : 0;
        lower[c] += lead < -level ? 1 : 0;
        known[c] += lead == lead ? 1 : 0;
      }
    }
    for (std::size_t c = 0; c < cols; ++c) {
      if (known[c] == 8) out.row(r)[c] = landform_of(lower[c], higher[c]);
    }
  }
  return out;
}

}  // namespace lodeway::terrain
