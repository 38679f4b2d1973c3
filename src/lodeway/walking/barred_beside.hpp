#pragma once
/// Ground to keep off on either hand of a leg, so that who strays onto it was told where it lies.
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::walking {

/// What bars the party nearest to a line on its left and on its right, looked for each 25 m of it and
/// out to `reach_m`; void and the file's edge are none. At most one a hand, the left one first.
/// Distances to one cell, along the line to 25 m; metres of the grid.
[[nodiscard]] std::vector<BarBeside> barred_beside(const Cover& cover,
                                                   const std::vector<earth::GridPoint>& line,
                                                   double reach_m = 200);

}  // namespace lodeway::walking
