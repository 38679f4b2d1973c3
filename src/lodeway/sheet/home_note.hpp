#pragma once
/// The page that stays at home, and the card of ways off.
#include "lodeway/sheet/drawing.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

/// A4, one side: three times, what to do by the clock, what to say, the way, the party, a quiet
/// map. What the trip does not give is a blank to fill in. Nothing is promised.
[[nodiscard]] Drawing draw_home_note(const trip::Plan& plan, const walking::Ground& ground,
                                     const TextMeasure& measure);

/// A5 lying, as many sides as the legs need: from each leg the way off with minutes and direction.
[[nodiscard]] std::vector<Drawing> draw_escape_card(const trip::Plan& plan,
                                                    const TextMeasure& measure);

}  // namespace lodeway::sheet
