#pragma once
/// Where the ground lies on a page: true to scale. Millimetres on paper, metres on the grid.
#include <vector>

#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

/// North of the grid is up, so that references are read along the edges.
struct MapFrame {
  double page_w = 210, page_h = 297;
  Mm at;                    ///< upper left corner of the map
  double w = 180, h = 200;  ///< of the map
  earth::GridPoint south_west;
  double scale = 25000;

  [[nodiscard]] double mm(double grid_m) const { return grid_m * 1000 / scale; }
  [[nodiscard]] double metres(double on_paper_mm) const { return on_paper_mm * scale / 1000; }
  [[nodiscard]] Mm on_page(earth::GridPoint p) const {
    return {at.x + mm(p.east_m - south_west.east_m), at.y + h - mm(p.north_m - south_west.north_m)};
  }
  [[nodiscard]] earth::GridPoint on_ground(Mm p) const {
    return {south_west.east_m + metres(p.x - at.x), south_west.north_m + metres(at.y + h - p.y)};
  }
  [[nodiscard]] double east_m() const { return south_west.east_m + metres(w); }
  [[nodiscard]] double north_m() const { return south_west.north_m + metres(h); }
  /// Is a place on the map, or within `margin_mm` beside it (below 0: so far inside)?
  [[nodiscard]] bool near(earth::GridPoint p, double margin_mm = 0) const;
  /// Does the box of a line touch the map, `margin_mm` around it?
  [[nodiscard]] bool touches(const std::vector<earth::GridPoint>& line, double margin_mm = 3) const;
};

/// A box of the ground that grows by what is put into it.
struct GroundBox {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  void add(earth::GridPoint p);
  void add(const std::vector<earth::GridPoint>& line) {
    for (const auto& p : line) add(p);
  }
  [[nodiscard]] double wide() const { return east - west; }
  [[nodiscard]] double high() const { return north - south; }
  [[nodiscard]] earth::GridPoint middle() const {
    return {0.5 * (west + east), 0.5 * (south + north)};
  }
};

/// The frame laid so that `middle` is its middle, to whole metres.
[[nodiscard]] MapFrame centred(MapFrame frame, earth::GridPoint middle);

/// How much larger or smaller symbols of the ground are than at 1:25 000; those of the plan keep
/// their size, because the hand that reads them does.
[[nodiscard]] constexpr double ground_size(double scale) {
  return scale <= 12000 ? 1.15 : scale >= 40000 ? 0.85 : 1.0;
}

/// Page sizes, millimetres, upright.
[[nodiscard]] Mm page_size(trip::Paper paper);

/// A sheet of this paper, upright or lying: title above, foot below, ground nowhere yet.
/// Text and lines keep 4 mm clear of the page's edges, which most printers cannot reach.
[[nodiscard]] MapFrame empty_frame(double scale, trip::Paper paper, bool landscape);
inline constexpr double clear_edge_mm = 4;
/// Below this width of the map the foot stands in two rows, with the shorter notes.
inline constexpr double narrow_map_mm = 170;
/// What the key of the signs takes between the map's figures and the foot, whatever stands in it.
[[nodiscard]] constexpr double legend_height_mm(double map_width_mm) {
  return map_width_mm < narrow_map_mm ? 25 : 29;
}

}  // namespace lodeway::sheet
