#pragma once
/// A made ground for tests: a ridge and a valley by formula, a path, a wall, a lake, a top.
#include <cmath>

#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/numeric/parallel.hpp"
#include "lodeway/sight/cue_planes.hpp"

namespace lodeway::sight::made {

using earth::GridPoint;
using mapdata::Kind;

inline constexpr double west = 500000, south = 6000000, side = 4000;

/// Height by formula, so that a test knows slope and fall exactly.
inline double height(GridPoint p) {
  const double x = p.east_m - west, y = p.north_m - south;
  return 400 + 0.12 * x + 60 * std::sin(y / 400);
}

inline walking::Ground ground(double cell = 10) {
  walking::Ground g;
  const int n = static_cast<int>(side / cell);
  g.elevation = terrain::Elevation({west, south + side, cell, n, n});
  for (int r = 0; r < n; ++r) {
    for (int c = 0; c < n; ++c)
      g.elevation[r, c] = static_cast<float>(height(g.elevation.frame().centre(r, c)));
  }
  g.kinds = io::built_in_rules().table();
  g.map.lines.push_back(
      {{Kind::path, "Long Path"}, {{west + 500, south + 500}, {west + 3500, south + 2500}}});
  g.map.lines.push_back(
      {{Kind::wall, ""}, {{west + 1000, south + 3500}, {west + 1000, south + 1500}}});
  g.map.points.push_back({{Kind::summit, "High Pike"}, {west + 3000, south + 3200}, 0});
  return g;
}

inline CuePlanes planes_of(const walking::Ground& g, std::optional<Window> window = {}) {
  walking::Request request;
  request.party.max_slope_deg = 35;
  const walking::Cover cover(g, request);
  numeric::Serial serial;
  return cue_planes(g, cover, window, serial);
}

}  // namespace lodeway::sight::made
