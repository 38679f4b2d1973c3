#pragma once
/// Straight legs over open ground. Method: docs/method/cutting-legs.md
#include <vector>

#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// A leg costs attention besides its walking: stop, read the map, set the compass; and more where
/// its end is nothing to see. Seconds; *practice*.
inline constexpr double leg_costs_s = 150, unseen_end_s = 90;

/// Search seconds straight from a to b, whatever bars it. Heights by bilinear look-up a cell apart.
[[nodiscard]] double walk_s(const Cutting& c, earth::GridPoint a, earth::GridPoint b);
/// The same; unreached_s where it is barred or longer than the party's longest leg.
[[nodiscard]] double straight_s(const Cutting& c, earth::GridPoint a, earth::GridPoint b);

/// Corners of an open stretch: of all choices among its own points, what it meets and the bridges
/// it uses, the one with the least walking and legs' cost together. No leg is barred that `open` is
/// not.
[[nodiscard]] std::vector<earth::GridPoint> corners(const Cutting& c,
                                                    const std::vector<earth::GridPoint>& open);

}  // namespace lodeway::route
