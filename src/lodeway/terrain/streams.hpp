#pragma once
/// Lines along which water gathers, as a net of polylines. Method: docs/method/drainage.md
#include <cstdint>
#include <vector>

#include "lodeway/terrain/drainage.hpp"

namespace lodeway::terrain {

/// A stretch from a head or a confluence down to the next confluence or the outlet.
struct StreamLine {
  std::vector<earth::GridPoint> points;  ///< cell centres, downstream; at least two
  int order = 1;            ///< Strahler 1957: 1 at a head; two of order n that meet give n + 1
  double head_area_m2 = 0;  ///< ground that drains through the first point
  double end_area_m2 = 0;   ///< through the last point before the confluence, or at the outlet
  std::int32_t joins = -1;  ///< the line that it flows into; -1 when it leaves the ground
};

/// Every cell through which at least `least_area_m2` (above 0) of ground drains, chained. A line
/// stands after all lines that flow into it; heads in raster order. Lines cross filled flats
/// (lakes) straight.
[[nodiscard]] std::vector<StreamLine> stream_lines(const Drainage& drainage, double least_area_m2);

}  // namespace lodeway::terrain
