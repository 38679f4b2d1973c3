#pragma once
/// What novices rather do not follow. Not for use outside route. Method:
/// docs/method/choosing-the-way.md
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::route {

/// Wires overhead: nothing on the ground leads, and what grows below them is not walked.
[[nodiscard]] constexpr bool under_wires(mapdata::Kind kind) {
  return kind == mapdata::Kind::power_line || kind == mapdata::Kind::aerialway;
}

/// How many times its minutes a leg along such a thing counts in search and choice, for this skill:
/// novices follow a road or path that takes up to a tenth longer rather than wires; *practice*.
[[nodiscard]] constexpr double counts_times(walking::Skill skill, mapdata::Kind followed) {
  return skill == walking::Skill::novice && under_wires(followed) ? 1.1 : 1;
}

}  // namespace lodeway::route
