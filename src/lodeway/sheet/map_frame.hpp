#pragma once
/// Where the ground lies on a page: true to scale. Millimetres on paper, metres on the grid.
#include <optional>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/drawing.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

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
  /// Is a place on the map, or within `margin_mm` beside it?
  [[nodiscard]] bool near(earth::GridPoint p, double margin_mm = 0) const;
  /// Does the box of a line touch the map, `margin_mm` around it?
  [[nodiscard]] bool touches(const std::vector<earth::GridPoint>& line, double margin_mm = 3) const;
};

/// Page sizes, millimetres, upright.
[[nodiscard]] Mm page_size(trip::Paper paper);

/// Sheets that cover a way in its order, each holding the last 15 mm of the one before, the way at
/// least 12 mm inside. As few as walking along it allows. Faults: bad_input (a scale not above 0);
/// too_large over 40 sheets: proposes a scale that needs 8 at most.
[[nodiscard]] Result<std::vector<MapFrame>> cover(const walking::Way& way, double scale,
                                                  trip::Paper paper, bool landscape);

inline constexpr std::size_t most_sheets = 40;

}  // namespace lodeway::sheet
