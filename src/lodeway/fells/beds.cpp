#include <algorithm>
#include <cmath>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"
#include "lodeway/fells/noise.hpp"

namespace lodeway::fells {

namespace {

/// Calls `visit(row, col, d2)` for every cell whose centre is within `reach_m` of p; d2 in m^2.
template <class Visit>
void cells_near(const terrain::Frame& f, earth::GridPoint p, double reach_m, Visit&& visit) {
  const auto [row, col] = f.cell_of(p);
  const int reach = static_cast<int>(reach_m / f.cell_m) + 1;
  for (int r = std::max(0, row - reach); r <= std::min(f.rows - 1, row + reach); ++r) {
    for (int c = std::max(0, col - reach); c <= std::min(f.cols - 1, col + reach); ++c) {
      const auto away = f.centre(r, c) - p;
      const double d2 = away.east_m * away.east_m + away.north_m * away.north_m;
      if (d2 <= reach_m * reach_m) visit(r, c, d2);
    }
  }
}

/// The level of a lake that touches the cell, which no bed beside it may undercut; far below all if
/// none.
double lake_beside(const Land& land, int row, int col) {
  for (int r = std::max(0, row - 1); r <= std::min(land.wet.rows() - 1, row + 1); ++r) {
    for (int c = std::max(0, col - 1); c <= std::min(land.wet.cols() - 1, col + 1); ++c) {
      if (land.wet[r, c] != 0) return land.lakes[land.wet[r, c] - 1U].level_m;
    }
  }
  return -1e9;
}

}  // namespace

void raise_tops(terrain::Raster<double>& heights) {
  constexpr double reach_m = 190, rise_m = 22;
  for (const auto& top : design::summits()) {
    const auto place = design::place(top.x_km, top.y_km);
    double highest = -1e9, highest_d2 = 0;
    cells_near(heights.frame(), place, 160, [&](int r, int c, double d2) {
      if (heights[r, c] > highest) {
        highest = heights[r, c];
        highest_d2 = d2;
      }
    });
    if (highest_d2 < 130.0 * 130.0)
      continue;  // not on the rim of what was looked at: a top already
    cells_near(heights.frame(), place, reach_m, [&](int r, int c, double d2) {
      heights[r, c] += rise_m * smooth_step(reach_m, 0, std::sqrt(d2));
    });
  }
}

void lay_mosses(terrain::Raster<double>& heights, std::uint64_t seed) {
  constexpr double reach_m = 330;
  for (const auto& moss : design::mosses()) {
    const auto middle = design::place(moss.x_km, moss.y_km);
    double low = 1e9;
    cells_near(heights.frame(), middle, 130,
               [&](int r, int c, double) { low = std::min(low, heights[r, c]); });
    cells_near(heights.frame(), middle, reach_m, [&](int r, int c, double d2) {
      const double frayed =
          std::sqrt(d2) / reach_m + 0.22 * fractal_noise(seed + 81, c / 24.0, r / 24.0, 3);
      const double pull = 0.9 * smooth_step(1.0, 0.45, frayed);
      double& h = heights[r, c];
      h += pull * (low + 0.04 * (h - low) - h) * smooth_step(70, 15, std::abs(h - low));
    });
  }
}

void carve_becks(Land& land, const mapdata::MapData& map) {
  const auto& frame = land.heights.frame();
  // A beck's end is where others begin or join: it is carved down to the lowest that came there.
  const auto key = [&](earth::GridPoint p) {
    const auto [r, c] = frame.cell_of(p);
    return static_cast<std::size_t>(std::clamp(r, 0, frame.rows - 1)) *
               static_cast<std::size_t>(frame.cols) +
           static_cast<std::size_t>(std::clamp(c, 0, frame.cols - 1));
  };
  std::vector<std::pair<std::size_t, const mapdata::LineFeature*>> becks;
  std::vector<std::int32_t> rank(frame.size(), 0);
  for (std::size_t i = 0; i < land.flow.order.size(); ++i) {
    rank[static_cast<std::size_t>(land.flow.order[i])] = static_cast<std::int32_t>(i);
  }
  for (const auto& line : map.lines) {
    if (line.label.kind == mapdata::Kind::stream || line.label.kind == mapdata::Kind::river) {
      becks.emplace_back(key(line.points.front()), &line);
    }
  }
  std::ranges::stable_sort(
      becks, [&](const auto& a, const auto& b) { return rank[a.first] > rank[b.first]; });
  std::vector<double> ends(frame.size(), 1e9);
  for (const auto& [start, line] : becks) {
    double bed = std::min(ends[start], land.heights.cells()[start]);
    for (std::size_t i = 1; i < line->points.size(); ++i) {
      const auto a = line->points[i - 1], b = line->points[i];
      const auto leg = b - a;
      const double length = std::sqrt(leg.east_m * leg.east_m + leg.north_m * leg.north_m);
      const int steps = 1 + static_cast<int>(length / 4);
      for (int k = i == 1 ? 0 : 1; k <= steps; ++k) {
        const auto p = a + (static_cast<double>(k) / steps) * leg;
        if (!frame.contains(p)) continue;
        const auto [r0, c0] = frame.cell_of(p);
        bed = std::min(bed, land.heights[r0, c0]);
        if (land.wet[r0, c0] != 0) continue;
        cells_near(frame, p, 22, [&](int r, int c, double d2) {
          if (land.wet[r, c] != 0) return;
          double& h = land.heights[r, c];
          h = std::min(h, std::max(lake_beside(land, r, c) - 0.2,
                                   bed + 0.7 * std::max(0.0, std::sqrt(d2) - 14.2)));
        });
      }
    }
    auto& end = ends[key(line->points.back())];
    end = std::min(end, bed);
  }
}

}  // namespace lodeway::fells
