#pragma once
/// Why a way turns where nothing is to be seen, and turns made worth their halt. Not for use outside
/// route. Method: docs/method/cutting-legs.md
#include <optional>
#include <vector>

#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// Why a party goes from a to c by `turn` and not straight: what bars the straight line, else that it
/// takes longer by half a minute and more, else that it is longer than the party's longest leg.
/// None: nothing asks for the turn.
[[nodiscard]] std::optional<walking::TurnReason> turn_reason(const Cutting& c, earth::GridPoint a,
                                                             earth::GridPoint turn,
                                                             earth::GridPoint to);

/// Corners of an open piece at which nothing is to be seen: without those that nothing asks for. One
/// that only parts a leg over the party's longest lies straight on, so that the bearing stays. One
/// that goes round what bars lies one standard deviation of the party's error off the straight line
/// at least, where there is room: a turn that no needle holds keeps nobody off anything.
void mend_turns(const Cutting& c, std::vector<earth::GridPoint>& points);

/// `turns_for` of every leg on a bearing that another one follows.
void tell_turns(const Cutting& c, std::vector<walking::Leg>& legs);

}  // namespace lodeway::route
