#pragma once
/// Bends of a line that somebody who walks along it takes note of.
#include <span>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::mapdata {

using earth::GridPoint;

struct BendMet {
  double at_m = 0;      ///< from the line's first point, along the line without its small wiggles
  double turn_deg = 0;  ///< right positive
  units::GridBearing after;
};

/// In order: where the line, without wiggles of under 15 m (simplify), turns by over 30 degrees and
/// was held for 80 m before and is for 80 m after. All three *practice*. Distances are grid metres.
[[nodiscard]] std::vector<BendMet> main_bends(std::span<const GridPoint> line);

}  // namespace lodeway::mapdata
