#pragma once
/// Why a way turns where nothing is to be seen, and turns that nothing asks for. Not for use outside
/// route. Method: docs/method/cutting-legs.md
#include <optional>
#include <vector>

#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// Why a party goes from a to c by `turn` and not straight: what bars the straight line, else that it
/// is longer than the party's longest leg, else that it takes longer by half a minute and more.
/// None: nothing asks for the turn.
[[nodiscard]] std::optional<walking::TurnReason> turn_reason(const Cutting& c, earth::GridPoint a,
                                                             earth::GridPoint turn,
                                                             earth::GridPoint to);

/// Corners of an open piece without those at which nothing is to be seen and that nothing asks for.
void drop_idle_turns(const Cutting& c, std::vector<earth::GridPoint>& points);

/// `turns_for` of every leg on a bearing that another one follows.
void tell_turns(const Cutting& c, std::vector<walking::Leg>& legs);

}  // namespace lodeway::route
