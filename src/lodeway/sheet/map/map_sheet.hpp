#pragma once
/// Map sheets of a plan: true to scale, few, numbered.
#include "lodeway/result/result.hpp"
#include "lodeway/sheet/map/cover.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

/// In their order along the way; behind them, when there are several, a page that shows how they
/// lie. Faults: as cover(). Accuracy: places within 0.01 mm of where the scale puts them.
[[nodiscard]] Result<std::vector<Drawing>> draw_map_sheets(const trip::Plan& plan,
                                                           const walking::Ground& ground,
                                                           const TextMeasure& measure);
/// The same on sheets that are laid already.
[[nodiscard]] std::vector<Drawing> draw_map_sheets(const trip::Plan& plan,
                                                   const walking::Ground& ground,
                                                   const TextMeasure& measure,
                                                   const std::vector<SheetPlace>& places);

/// All sheets on one page: where they lie, which legs each holds.
[[nodiscard]] Drawing draw_index_page(const trip::Plan& plan, const walking::Ground& ground,
                                      const TextMeasure& measure,
                                      const std::vector<SheetPlace>& sheets);

/// The ground under a frame, without plan or margin: for the home note's small map and for
/// pictures.
void draw_ground(class Page& page, class Labels& labels, const MapFrame& frame,
                 const walking::Ground& ground, double contour_m, bool quiet);

}  // namespace lodeway::sheet
