#pragma once
/// Lines on the page: walking along them, their middle, a line moved sideways.
#include <functional>
#include <vector>

#include "lodeway/sheet/map/map_frame.hpp"

namespace lodeway::sheet {

/// The line on the page; points nearer than `least_mm` to the one before are left out, ends kept.
[[nodiscard]] std::vector<Mm> on_page(const MapFrame& frame,
                                      const std::vector<earth::GridPoint>& line,
                                      double least_mm = 0.08);
[[nodiscard]] double length_mm(const std::vector<Mm>& line);
/// The place at `share` (0 to 1) of a line's length, and the direction of going there.
[[nodiscard]] Mm point_at(const std::vector<Mm>& line, double share, Mm& direction);
/// Calls use(place, direction) every `step` millimetres, from half a step on.
void each_step(const std::vector<Mm>& line, double step,
               const std::function<void(Mm place, Mm direction)>& use);
/// Nearest distance from a place to a line, millimetres; 1e9 to an empty one.
[[nodiscard]] double distance_mm(Mm place, const std::vector<Mm>& line);
/// The line moved sideways, to the right of going when `by` is above 0; without the knots that
/// sharp bends would tie on their inner side.
[[nodiscard]] std::vector<Mm> beside(const std::vector<Mm>& line, double by);
/// The pieces of a line inside a box of the page, cut at its sides.
[[nodiscard]] std::vector<std::vector<Mm>> pieces_inside(const std::vector<Mm>& line, Mm upper_left,
                                                         Mm lower_right);

}  // namespace lodeway::sheet
