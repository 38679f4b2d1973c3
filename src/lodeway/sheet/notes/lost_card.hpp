#pragma once
/// The card for a party that no longer knows where it is.
#include <vector>

#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/trip/lost_leg.hpp"

namespace lodeway::sheet {

/// A5 lying, two faces a side, to be folded to A6: first what to do, in six steps with blanks; then
/// each leg: what is seen each 200 m, and in a frame the move that works wherever on it the party
/// is, or that there is none. `legs`: one for each leg of the plan.
[[nodiscard]] std::vector<Drawing> draw_lost_card(const trip::Plan& plan,
                                                  const std::vector<trip::LostLeg>& legs,
                                                  const TextMeasure& measure);

}  // namespace lodeway::sheet
