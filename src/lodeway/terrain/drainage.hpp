#pragma once
/// Where the water goes: pits filled, one way down from every cell, how much ground lies above it.
/// Method, assumptions and checks: docs/method/drainage.md
#include <cstdint>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

/// 0 to 7: to the neighbour, clockwise from north (0 N, 1 NE, 2 E ... 7 NW).
inline constexpr std::uint8_t flows_away = 8;    ///< over the edge or into a void
inline constexpr std::uint8_t flow_unknown = 9;  ///< a void

/// The cell that `to` leads to; only for directions 0 to 7.
[[nodiscard]] std::pair<int, int> downstream(int row, int col, std::uint8_t to);

struct Drainage {
  /// Heights with every pit raised to where it spills, lakes dead flat. The edge and voids are
  /// outlets. Exact: the least, over all ways of 8-neighbour steps to an outlet, of the greatest
  /// height on the way (what Priority-Flood gives: Barnes, Lehman & Mulla 2014, Computers &
  /// Geosciences 62:117-127). Voids and infinite heights become NaN.
  Elevation filled;
  Raster<std::uint8_t> to;  ///< direction of flow, from every known cell to an outlet
  Raster<std::uint32_t>
      upstream;  ///< cells that drain through this one, itself counted; 0 in voids

  /// Ground above and in the cell, square metres.
  [[nodiscard]] double area_m2(int row, int col) const {
    return upstream[row, col] * upstream.frame().cell_m * upstream.frame().cell_m;
  }
};

/// Flow by greatest drop for its length (D8: O'Callaghan & Mark 1984); over flats by the fewest
/// steps to where the flat drains, of equal ones N, E, S, W, then the diagonals from NE. Depends on
/// the heights alone, not on any order of work. Rasters up to 4e9 cells. Accuracy: directions are
/// multiples of 45 degrees; a single line's length is up to 8 % too great.
[[nodiscard]] Drainage drainage(const Elevation& heights);
/// The same with further outlets: cells where `sinks` is not 0 keep their water. Same frame as
/// heights.
[[nodiscard]] Drainage drainage(const Elevation& heights, const Raster<std::uint8_t>& sinks);

}  // namespace lodeway::terrain
