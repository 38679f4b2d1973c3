#pragma once
/// What every exchange format of a way needs: its line in degrees, and text that XML takes.
#include <string>
#include <vector>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/trip/planned_leg.hpp"

namespace lodeway::io::detail {

using Line = std::vector<earth::Geographic>;
/// Faults: outside_validity.
[[nodiscard]] Result<Line> geographic(const std::vector<earth::GridPoint>& line,
                                      const earth::MapGrid& grid);
/// The line of a leg as it is walked: by the aim where it is aimed off. Faults: outside_validity.
[[nodiscard]] Result<Line> walked_line(const trip::PlannedLeg& leg, const earth::MapGrid& grid);
/// With the four characters escaped that matter; control characters are left out.
[[nodiscard]] std::string xml(const std::string& text);

}  // namespace lodeway::io::detail
