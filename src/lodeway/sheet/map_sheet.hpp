#pragma once
/// Map sheets of a plan: true to scale, few, numbered.
#include "lodeway/result/result.hpp"
#include "lodeway/sheet/map_frame.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

/// Faults: as cover(). Accuracy: places within 0.01 mm of where the scale puts them.
[[nodiscard]] Result<std::vector<Drawing>> draw_map_sheets(const trip::Plan& plan,
                                                           const walking::Ground& ground,
                                                           const TextMeasure& measure);

/// The ground under a frame, without plan or margin: for the home note's small map and for
/// pictures.
void draw_ground(class Page& page, class Labels& labels, const MapFrame& frame,
                 const walking::Ground& ground, double contour_m, bool quiet);

}  // namespace lodeway::sheet
