#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"

namespace lodeway::fells {

namespace {

using earth::GridPoint;

constexpr double saddle_reach_m = 450, top_ring_m = 100, dry_m2 = 5000;

/// Whether water from two cells comes together within 80 cells of its way: then they are no two
/// sides.
bool meet_soon(const Flow& flow, std::size_t a, std::size_t b) {
  std::vector<std::size_t> seen;
  const auto down = [&](std::size_t k, auto&& visit) {
    for (int i = 0; i < 80; ++i) {
      if (visit(k)) return true;
      if (flow.receiver[k] < 0) return false;
      k = static_cast<std::size_t>(flow.receiver[k]);
    }
    return false;
  };
  (void)down(a, [&](std::size_t k) {
    seen.push_back(k);
    return false;
  });
  return down(b, [&](std::size_t k) { return std::ranges::find(seen, k) != seen.end(); });
}

/// How much of a saddle a cell is: the least of its two rises and two falls, metres; 0 when the
/// ring round it is not up, down, up, down, or the two falling sides are one valley's.
double saddle_strength(const Land& land, int row, int col, double ring_m) {
  const auto& h = land.heights;
  // Sixteen places on a ring, in cells: cosines and sines written out.
  const double r = ring_m / h.frame().cell_m;
  static constexpr std::array<double, 16> wave{
      0, 0.38268,  0.70711,  0.92388,  1,  0.92388,  0.70711,  0.38268,
      0, -0.38268, -0.70711, -0.92388, -1, -0.92388, -0.70711, -0.38268};
  std::array<double, 16> rise{};
  std::array<std::size_t, 16> cell{};
  for (std::size_t i = 0; i < 16; ++i) {
    const int rr = row - static_cast<int>(std::round(r * wave[(i + 4) % 16])),
              cc = col + static_cast<int>(std::round(r * wave[i]));
    if (!h.frame().holds(rr, cc)) return 0;
    cell[i] = static_cast<std::size_t>(rr) * static_cast<std::size_t>(h.cols()) +
              static_cast<std::size_t>(cc);
    rise[i] = h[rr, cc] - h[row, col];
  }
  std::size_t start = 16;
  for (std::size_t i = 0; i < 16; ++i) {
    if (rise[i] > 0 && rise[(i + 15) % 16] <= 0) start = i;
  }
  if (start == 16) return 0;
  std::array<double, 4> most{};
  std::array<std::size_t, 4> where{};
  std::size_t arc = 0;
  for (std::size_t i = 0; i < 16; ++i) {
    const double v = rise[(start + i) % 16];
    if (i > 0 && (v > 0) != (arc % 2 == 0) && ++arc > 3) return 0;
    if (std::abs(v) >= most[arc]) {
      most[arc] = std::abs(v);
      where[arc] = cell[(start + i) % 16];
    }
  }
  const double least = arc == 3 ? *std::ranges::min_element(most) : 0;
  return least < 2 || meet_soon(land.flow, where[1], where[3]) ? 0 : least;
}

std::optional<GridPoint> saddle_near(const Land& land, GridPoint p) {
  const auto& f = land.heights.frame();
  const auto [row, col] = f.cell_of(p);
  const int reach = static_cast<int>(saddle_reach_m / f.cell_m);
  std::optional<GridPoint> found;
  double best = 0;
  for (int r = row - reach; r <= row + reach; ++r) {
    for (int c = col - reach; c <= col + reach; ++c) {
      if (!f.holds(r, c) || land.wet[r, c] != 0) continue;
      const double away = distance_m(f.centre(r, c), p);
      if (land.flow.area_m2[static_cast<std::size_t>(r) * static_cast<std::size_t>(f.cols) +
                            static_cast<std::size_t>(c)] > dry_m2)
        continue;
      const double strength =
          std::max({saddle_strength(land, r, c, 80), saddle_strength(land, r, c, 140),
                    saddle_strength(land, r, c, 200)});
      if (strength <= 0 || away > saddle_reach_m) continue;
      if (const double score = std::min(strength, 15.0) + 6 - away / 40; score > best) {
        best = score;
        found = f.centre(r, c);
      }
    }
  }
  return found;
}

}  // namespace

/// The highest cell within reach of a place.
GridPoint highest_near(const Land& land, GridPoint p, double reach_m) {
  const auto& f = land.heights.frame();
  const auto [row, col] = f.cell_of(p);
  const int reach = static_cast<int>(reach_m / f.cell_m);
  GridPoint best = p;
  double most = -1e9;
  for (int r = std::max(0, row - reach); r <= std::min(f.rows - 1, row + reach); ++r) {
    for (int c = std::max(0, col - reach); c <= std::min(f.cols - 1, col + reach); ++c) {
      if (land.heights[r, c] > most) {
        most = land.heights[r, c];
        best = f.centre(r, c);
      }
    }
  }
  return best;
}

void find_places(Land& land, numeric::Parallel& parallel) {
  for (const auto& s : design::summits()) {
    auto p = highest_near(land, design::place(s.x_km, s.y_km), 150);
    for (auto next = highest_near(land, p, top_ring_m); !(next == p);
         next = highest_near(land, p, top_ring_m))
      p = next;
    if (std::ranges::none_of(land.summits, [&](const auto& other) { return other.at == p; }))
      land.summits.push_back({s.name, p});
  }
  const auto drawn = design::saddles();
  std::vector<std::optional<GridPoint>> found(drawn.size());
  parallel.for_each_block(drawn.size(), [&](std::size_t i) {
    found[i] = saddle_near(land, design::place(drawn[i].x_km, drawn[i].y_km));
  });
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    if (found[i]) land.saddles.push_back({drawn[i].name, *found[i]});
  }
}

}  // namespace lodeway::fells
