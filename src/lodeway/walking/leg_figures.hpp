#pragma once
/// The figures of one leg: length, climb, bearing, minutes, paces.
#include "lodeway/walking/ground.hpp"
#include "lodeway/walking/party.hpp"
#include "lodeway/walking/way.hpp"

namespace lodeway::walking {

/// Kinds that are walked on themselves: the time models' "on path".
[[nodiscard]] bool is_path(mapdata::Kind kind);

/// From `leg.line`, `kind`, `along_kind` and `ground_factor` sets length (ground metres: the grid's
/// scale at the leg's middle is taken out), climb and descent, grid bearing (start to end),
/// minutes, the slow day's minutes (0.9 quantile of a normal band, party.time_band its sigma),
/// double paces and whether a void is touched. Where heights are void, climb is counted as none and
/// that is said. Double paces: length / (2 stride), times 1 + (1 - ground_factor) / 2 for rough
/// ground; *practice*: a soldier's 116 and 148 steps for 100 m on level and rough ground
/// (reference-values 5) are 1 : 1.28.
void set_figures(Leg& leg, const Ground& ground, const Party& party);

/// z of the 0.9 quantile of the standard normal.
inline constexpr double slow_day_z = 1.2815515655446004;

}  // namespace lodeway::walking
