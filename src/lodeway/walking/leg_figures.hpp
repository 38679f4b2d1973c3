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
/// that is said. Double paces: length / (2 stride), times `more_paces`.
void set_figures(Leg& leg, const Ground& ground, const Party& party);

/// Steps shorten on rough and on steep ground: 1 + (1 - ground_factor) / 2 for the ground, and
/// beyond a mean slope of 0.1 (climb and descent over length) the rest of it, up to 0.2; together
/// at most 1.3. *Practice*: 1.1 to 1.3 on rough or steep ground; an army task's 116 and 148 steps
/// for 100 m on level ground and cross-country (071-329-1006) are 1 : 1.28.
inline constexpr double most_more_paces = 1.3;
[[nodiscard]] double more_paces(double ground_factor, double mean_slope);

/// z of the 0.9 quantile of the standard normal.
inline constexpr double slow_day_z = 1.2815515655446004;

}  // namespace lodeway::walking
