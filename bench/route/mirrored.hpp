#pragma once
/// A larger ground of the same sort: a ground mirrored east and north as often as it takes.
#include <cmath>

#include "lodeway/walking/ground.hpp"

namespace lodeway::route {

/// A square of `side_m` from the south-west corner of `g`. Lines are cut at its edge; areas that
/// pass it are left out.
inline walking::Ground mirrored(const walking::Ground& g, double side_m) {
  const auto& f = g.elevation.frame();
  const int n = static_cast<int>(side_m / f.cell_m);
  walking::Ground big;
  big.grid = g.grid;
  big.kinds = g.kinds;
  big.elevation = terrain::Elevation({f.west_m, f.south_m() + n * f.cell_m, f.cell_m, n, n});
  const auto folded = [](int i, int size) {
    const int k = i % (2 * size);
    return k < size ? k : 2 * size - 1 - k;
  };
  for (int up = 0; up < n; ++up) {
    for (int c = 0; c < n; ++c) {
      big.elevation[n - 1 - up, c] =
          g.elevation[f.rows - 1 - folded(up, f.rows), folded(c, f.cols)];
    }
  }
  const double wide = f.cell_m * f.cols, high = f.cell_m * f.rows;
  for (int i = 0; i * wide < side_m; ++i) {
    for (int j = 0; j * high < side_m; ++j) {
      const auto place = [&](earth::GridPoint p) {
        const double e = p.east_m - f.west_m, u = p.north_m - f.south_m();
        return earth::GridPoint{f.west_m + i * wide + (i % 2 == 0 ? e : wide - e),
                                f.south_m() + j * high + (j % 2 == 0 ? u : high - u)};
      };
      const auto inside = [&](earth::GridPoint p) { return big.elevation.frame().contains(p); };
      for (auto p : g.map.points) {
        p.at = place(p.at);
        if (inside(p.at)) big.map.points.push_back(p);
      }
      for (const auto& line : g.map.lines) {
        auto part = line;
        part.points.clear();
        for (const auto& p : line.points) {
          if (inside(place(p))) part.points.push_back(place(p));
        }
        if (part.points.size() > 1) big.map.lines.push_back(std::move(part));
      }
      for (auto area : g.map.areas) {
        bool whole = true;
        const auto move = [&](std::vector<earth::GridPoint>& ring) {
          for (auto& p : ring) {
            p = place(p);
            whole = whole && inside(p);
          }
          if ((i + j) % 2 == 1) ring = {ring.rbegin(), ring.rend()};
        };
        move(area.outer);
        for (auto& hole : area.holes) move(hole);
        if (whole) big.map.areas.push_back(std::move(area));
      }
    }
  }
  return big;
}

}  // namespace lodeway::route
