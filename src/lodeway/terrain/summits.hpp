#pragma once
/// Tops and the saddles below them. Method: docs/method/landforms.md
#include <cstdint>
#include <vector>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

/// Prominence: how far one must go down, at least, on the way to higher ground. The lowest place of
/// that way is the key col, a saddle.
struct Summit {
  earth::GridPoint at;  ///< cell centre
  double height_m = 0;
  double prominence_m = 0;
  bool has_col = false;      ///< false: nothing higher in this piece of ground
  earth::GridPoint col;      ///< key col; of no meaning without one
  double col_height_m = 0;   ///< without a col: the lowest known height of this piece of ground
  std::int32_t higher = -1;  ///< the summit beyond the col, an index into the same list
  /// The summit's ground above the col reaches the edge or a void: what lies there might be higher,
  /// so the true prominence may be less.
  bool at_most = false;
};

/// Summits with a prominence of at least `least_prominence_m` (above 0), highest first, of equal
/// heights in raster order. Exact for the heights given, steps to any of 8 neighbours. A flat top
/// stands for its first cell.
[[nodiscard]] std::vector<Summit> summits(const Elevation& heights, double least_prominence_m);

}  // namespace lodeway::terrain
