#pragma once
/// Places as people type them: a name on the map, or a grid reference.
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// `where` stands before the fault: "from". Faults: bad_input (no such name, several of that name,
/// not a reference); outside_validity; outside_ground, unless `beyond` allows it.
[[nodiscard]] Result<earth::GridPoint> place_named(const walking::Ground& ground,
                                                   const std::string& text,
                                                   const std::string& where,
                                                   bool beyond = false);

}  // namespace lodeway::tasks
