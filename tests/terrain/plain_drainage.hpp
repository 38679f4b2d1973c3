#pragma once
/// Priority-Flood as printed (Barnes, Lehman & Mulla 2014, algorithm 1 with flow directions): one
/// heap of all cells, each cell flows to the one that flooded it, and counts add up in the order
/// turned round. A second implementation, and the measure of speed.
#include <cstdint>
#include <queue>
#include <vector>

#include "lodeway/terrain/drainage.hpp"

namespace lodeway::terrain::test {

struct PlainDrainage {
  Elevation filled;
  Raster<std::uint8_t> to;
  Raster<std::uint32_t> upstream;
};

inline PlainDrainage plain_drainage(const Elevation& heights) {
  struct Cell {
    float height;
    int row, col;
  };
  const auto later = [](const Cell& a, const Cell& b) { return a.height > b.height; };
  std::priority_queue<Cell, std::vector<Cell>, decltype(later)> open(later);
  PlainDrainage out{heights, Raster<std::uint8_t>(heights.frame(), flow_unknown),
                    Raster<std::uint32_t>(heights.frame())};
  std::vector<std::pair<int, int>> order;
  order.reserve(heights.frame().size());
  for (int r = 0; r < heights.rows(); ++r) {
    for (int c = 0; c < heights.cols(); ++c) {
      if (!std::isfinite(heights[r, c])) continue;
      bool outlet = false;
      for (std::uint8_t k = 0; k < 8; ++k) {
        const auto [nr, nc] = downstream(r, c, k);
        outlet = outlet || !heights.frame().holds(nr, nc) || !std::isfinite(heights[nr, nc]);
      }
      if (!outlet) continue;
      out.to[r, c] = flows_away;
      open.push({heights[r, c], r, c});
    }
  }
  while (!open.empty()) {
    const Cell at = open.top();
    open.pop();
    order.emplace_back(at.row, at.col);
    for (std::uint8_t k = 0; k < 8; ++k) {
      const auto [nr, nc] = downstream(at.row, at.col, k);
      if (!heights.frame().holds(nr, nc) || !std::isfinite(heights[nr, nc])) continue;
      if (out.to[nr, nc] != flow_unknown) continue;
      out.to[nr, nc] = static_cast<std::uint8_t>((k + 4) % 8);
      out.filled[nr, nc] = std::max(heights[nr, nc], at.height);
      open.push({out.filled[nr, nc], nr, nc});
    }
  }
  for (std::size_t i = order.size(); i-- > 0;) {
    const auto [r, c] = order[i];
    ++out.upstream[r, c];
    if (out.to[r, c] >= flows_away) continue;
    const auto [dr, dc] = downstream(r, c, out.to[r, c]);
    out.upstream[dr, dc] += out.upstream[r, c];
  }
  return out;
}

}  // namespace lodeway::terrain::test
