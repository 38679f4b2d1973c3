#pragma once
/// The card of ways off.
#include <vector>

#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

/// A5 lying, as many sides as the legs need: from each leg the minutes, what the needle shows first
/// and where to; then the distress signal of the trip's region, what to say, and that nothing here
/// is a promise.
[[nodiscard]] std::vector<Drawing> draw_escape_card(const trip::Plan& plan,
                                                    const TextMeasure& measure);

}  // namespace lodeway::sheet
