#include <algorithm>
#include <cmath>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/noise.hpp"
#include "lodeway/fells/relief.hpp"

namespace lodeway::fells {
namespace {

constexpr double far_away = 1e9;

/// Metres to the nearest cell of the lake, within a few parts in a hundred (chamfer 1, 1.41).
std::vector<double> distance_to(const std::vector<std::uint8_t>& inside, int rows, int cols,
                                double cell) {
  std::vector<double> d(inside.size());
  for (std::size_t k = 0; k < d.size(); ++k) d[k] = inside[k] ? 0 : far_away;
  const auto at = [&](int r, int c) -> double& {
    return d[static_cast<std::size_t>(r) * static_cast<std::size_t>(cols) +
             static_cast<std::size_t>(c)];
  };
  const auto pass = [&](int r, int c, int dr) {
    double best = at(r, c);
    for (int dc = -1; dc <= 1; ++dc)
      if (r + dr >= 0 && r + dr < rows && c + dc >= 0 && c + dc < cols)
        best = std::min(best, at(r + dr, c + dc) + cell * (dc == 0 ? 1 : 1.41));
    const int side = c + dr;
    if (side >= 0 && side < cols) best = std::min(best, at(r, side) + cell);
    at(r, c) = best;
  };
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < cols; ++c) pass(r, c, -1);
  for (int r = rows - 1; r >= 0; --r)
    for (int c = cols - 1; c >= 0; --c) pass(r, c, 1);
  return d;
}

/// The cells up the main water from the outlet, at most `length_m` of them.
std::vector<std::int32_t> upstream_of(const Flow& flow, std::int32_t outlet, int cols, double cell,
                                      double length_m) {
  std::vector<std::int32_t> line{outlet};
  double length = 0;
  while (length < length_m) {
    const std::int32_t here = line.back();
    std::int32_t best = -1;
    for (int dr = -1; dr <= 1; ++dr)
      for (int dc = -1; dc <= 1; ++dc) {
        const std::int32_t other = here + dr * cols + dc;
        if (other < 0 || other >= static_cast<std::int32_t>(flow.receiver.size())) continue;
        const auto j = static_cast<std::size_t>(other);
        if (flow.receiver[j] == here &&
            (best < 0 || flow.area_m2[j] > flow.area_m2[static_cast<std::size_t>(best)]))
          best = other;
      }
    if (best < 0) break;
    line.push_back(best);
    const int moved = std::abs(best - here);
    length += cell * (moved == 1 || moved == cols ? 1.0 : 1.41421356);
  }
  return line;
}

}  // namespace

std::vector<LakeBed> dig_lakes(terrain::Raster<double>& heights, terrain::Raster<std::uint8_t>& wet,
                               std::uint64_t seed, numeric::Parallel& parallel) {
  Router router(nodes_of(heights), parallel);
  const Flow& flow = router.route(heights.cells(), 0.002);
  std::copy(flow.filled_m.begin(), flow.filled_m.end(), heights.cells().begin());
  const auto& frame = heights.frame();
  const int cols = frame.cols;
  std::vector<LakeBed> beds;
  for (const auto& lake : design::lakes()) {
    const auto [row, col] = frame.cell_of(design::place(lake.x_km, lake.y_km));
    std::int32_t outlet = -1;
    for (int r = row - 22; r <= row + 22; ++r)
      for (int c = col - 22; c <= col + 22; ++c)
        if (outlet < 0 || flow.area_m2[static_cast<std::size_t>(r * cols + c)] >
                              flow.area_m2[static_cast<std::size_t>(outlet)])
          outlet = r * cols + c;
    const auto line = upstream_of(flow, outlet, cols, frame.cell_m, lake.length_m);
    // The box that holds the lake and its banks.
    const int reach = static_cast<int>((1.6 * lake.half_width_m + lake.bank_m) / frame.cell_m) + 2;
    int top = frame.rows, bottom = 0, left = cols, right = 0;
    for (const auto k : line) {
      top = std::min(top, k / cols), bottom = std::max(bottom, k / cols);
      left = std::min(left, k % cols), right = std::max(right, k % cols);
    }
    top = std::max(1, top - reach), bottom = std::min(frame.rows - 2, bottom + reach);
    left = std::max(1, left - reach), right = std::min(cols - 2, right + reach);
    const int box_rows = bottom - top + 1, box_cols = right - left + 1;
    const double level = std::floor(heights.cells()[static_cast<std::size_t>(outlet)] * 10) / 10;
    std::vector<std::uint8_t> inside(
        static_cast<std::size_t>(box_rows) * static_cast<std::size_t>(box_cols), 0);
    const auto box = [&](int r, int c) {
      return static_cast<std::size_t>(r - top) * static_cast<std::size_t>(box_cols) +
             static_cast<std::size_t>(c - left);
    };
    for (int r = top; r <= bottom; ++r)
      for (int c = left; c <= right; ++c) {
        if (heights[r, c] < level || wet[r, c] != 0) continue;
        const double rough = 1 + 0.38 * fractal_noise(seed + 61, c / 26.0, r / 26.0, 4);
        for (std::size_t i = 0; i < line.size(); i += 2) {
          const double t = (static_cast<double>(i) + 0.5) / static_cast<double>(line.size());
          const double half = lake.half_width_m * rough * std::sqrt(1 - (2 * t - 1) * (2 * t - 1));
          const double dr = (line[i] / cols - r) * frame.cell_m,
                       dc = (line[i] % cols - c) * frame.cell_m;
          if (dr * dr + dc * dc > half * half) continue;
          // The valley's sides are not dug away further than a lake would.
          if (heights[r, c] - level >
              12 + 0.1 * half + 0.5 * (heights.cells()[static_cast<std::size_t>(line[i])] - level))
            continue;
          inside[box(r, c)] = 1;
          break;
        }
      }
    // Only what hangs together with the outlet.
    std::vector<std::uint8_t> joined(inside.size(), 0);
    std::vector<std::int32_t> stack{outlet};
    joined[box(outlet / cols, outlet % cols)] = 1;
    LakeBed bed{std::string(lake.name), level, {}};
    while (!stack.empty()) {
      const std::int32_t k = stack.back();
      stack.pop_back();
      bed.cells.push_back(k);
      for (const std::int32_t other : {k - 1, k + 1, k - cols, k + cols}) {
        const int r = other / cols, c = other % cols;
        if (r < top || r > bottom || c < left || c > right) continue;
        if (inside[box(r, c)] == 0 || joined[box(r, c)] != 0) continue;
        joined[box(r, c)] = 1;
        stack.push_back(other);
      }
    }
    const auto boxed = [&](std::int32_t k) {
      return k >= 0 && k / cols > top && k / cols < bottom && k % cols > left && k % cols < right;
    };
    const auto touches = [&](std::int32_t k) {
      for (int dr = -1; dr <= 1; ++dr)
        for (int dc = -1; dc <= 1; ++dc)
          if (joined[box(k / cols + dr, k % cols + dc)] != 0) return true;
      return false;
    };
    // One way out: where the beck runs on along the shore, the lake takes it in until it leaves.
    for (bool again = true; again;) {
      again = false;
      auto down = flow.receiver[static_cast<std::size_t>(outlet)];
      std::vector<std::int32_t> along;
      for (int i = 0; i < 12 && boxed(down);
           ++i, down = flow.receiver[static_cast<std::size_t>(down)])
        along.push_back(down);
      std::size_t last = 0;
      for (std::size_t i = 1; i < along.size(); ++i)
        if (touches(along[i])) last = i;
      for (std::size_t i = 0; i < last; ++i) {
        joined[box(along[i] / cols, along[i] % cols)] = 1;
        bed.cells.push_back(along[i]);
        outlet = along[i];
        again = true;
      }
    }
    // No islands of a few cells: what the border of the box cannot reach is lake too.
    std::vector<std::uint8_t> outside(joined.size(), 0);
    for (int r = top; r <= bottom; ++r)
      for (int c = left; c <= right; c += r == top || r == bottom ? 1 : right - left)
        if (joined[box(r, c)] == 0 && outside[box(r, c)] == 0) {
          outside[box(r, c)] = 1;
          stack.push_back(r * cols + c);
        }
    while (!stack.empty()) {
      const std::int32_t k = stack.back();
      stack.pop_back();
      for (const std::int32_t other : {k - 1, k + 1, k - cols, k + cols}) {
        const int r = other / cols, c = other % cols;
        if (r < top || r > bottom || c < left || c > right) continue;
        if (joined[box(r, c)] != 0 || outside[box(r, c)] != 0) continue;
        outside[box(r, c)] = 1;
        stack.push_back(other);
      }
    }
    for (int r = top; r <= bottom; ++r)
      for (int c = left; c <= right; ++c)
        if (joined[box(r, c)] == 0 && outside[box(r, c)] == 0) {
          joined[box(r, c)] = 1;
          bed.cells.push_back(r * cols + c);
        }
    std::sort(bed.cells.begin(), bed.cells.end());
    const auto away = distance_to(joined, box_rows, box_cols, frame.cell_m);
    std::vector<std::uint8_t> way_out(inside.size(), 0);
    std::int32_t down = flow.receiver[static_cast<std::size_t>(outlet)];
    for (int i = 0; i < 12 && down >= 0; ++i, down = flow.receiver[static_cast<std::size_t>(down)])
      if (down / cols >= top && down / cols <= bottom && down % cols >= left &&
          down % cols <= right)
        way_out[box(down / cols, down % cols)] = 1;
    const auto index = static_cast<std::uint8_t>(beds.size() + 1);
    for (int r = top; r <= bottom; ++r)
      for (int c = left; c <= right; ++c) {
        const double d = away[box(r, c)];
        double& h = heights[r, c];
        if (d <= 0) {
          h = level;
          wet[r, c] = index;
        } else if (d < lake.bank_m && wet[r, c] == 0) {
          const double bank = level + 0.3 + 0.04 * d;
          if (h >= level + 0.3)
            h = std::max(bank,
                         level + (h - level) * smooth_step(-0.15 * lake.bank_m, lake.bank_m, d));
          else if (d < 35 && way_out[box(r, c)] == 0)
            h = std::max(h, level + 0.6 - 0.01 * d);
          else if (way_out[box(r, c)] != 0)
            h = d < 15 ? std::clamp(h, level - 0.2, level) : std::min(h, level);
        }
      }
    beds.push_back(std::move(bed));
  }
  return beds;
}

}  // namespace lodeway::fells
