#pragma once
/// Where nothing on the ground leads. Not for use outside route. Method:
/// docs/method/choosing-the-way.md
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::route {

/// Wires overhead: nothing on the ground leads, and what grows below them is not walked.
[[nodiscard]] constexpr bool under_wires(mapdata::Kind kind) {
  return kind == mapdata::Kind::power_line || kind == mapdata::Kind::aerialway;
}

/// A leader follows what leads, where it takes up to a tenth longer, rather than the needle or wires;
/// *practice*.
inline constexpr double nothing_leads_counts = 1.1;

/// How many times its minutes a leg counts in search and choice: on a bearing and along wires a tenth
/// more.
[[nodiscard]] constexpr double counts_times(walking::LegKind kind, mapdata::Kind followed) {
  return kind == walking::LegKind::along && !under_wires(followed) ? 1 : nothing_leads_counts;
}

}  // namespace lodeway::route
