#pragma once
/// The page that stays at home.
#include <vector>

#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

/// A4: three times, what to do by the clock, what to say, the way, the party, a quiet map, what
/// happens if it goes wrong. What the trip does not give is a blank to fill in. Nothing is promised.
/// Behind the first side, where that has not room for all: the whole verdict, what else to know
/// (what the map lacks, a clock that changes), and the start and each leg's end in full, as many
/// sides as they need.
[[nodiscard]] std::vector<Drawing> draw_home_note(const trip::Plan& plan,
                                                  const walking::Ground& ground,
                                                  const TextMeasure& measure);

}  // namespace lodeway::sheet
