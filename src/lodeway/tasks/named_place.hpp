#pragma once
/// A place that somebody named: a name on the map, or a grid reference.
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// The point of the map that is called so, or what earth::parse_place makes of the text. Faults:
/// bad_input (several of that name, neither name nor reference), as MapGrid::to_grid.
[[nodiscard]] Result<earth::GridPoint> place_of(const walking::Ground& ground,
                                                const std::string& text);

}  // namespace lodeway::tasks
