#pragma once
/// Those who lose the way, and then set foot on ground to keep off.
#include "lodeway/reckoning/judge/hazard.hpp"
#include "lodeway/reckoning/judge/judged.hpp"

namespace lodeway::route {

/// A party that has lost its leg goes on about so far before it finds out. *practice*: novices of a
/// prototype noticed a wrong bearing after some 1060 m, practised ones after 540.
inline constexpr double lost_go_on_m = 1000;

/// Of all parties, the share that loses a leg of the way and then treads ground to keep off: from
/// half way and from the end of the leg that it lost first, `lost_go_on_m` straight on in any
/// direction, all alike. A leg's own hazard is of those who keep it; this is of the others. Rough:
/// 16 directions from each place, so 0.06 of those who lose a leg; good for telling ways apart, no
/// figure to print.
[[nodiscard]] double harm_of_lost(const reckoning::JudgedWay& way,
                                  const reckoning::HazardGround& ground);

}  // namespace lodeway::route
