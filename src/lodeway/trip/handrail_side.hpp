#pragma once
/// What keeps to one side of a handrail leg.
#include <string>
#include <vector>

#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/ground.hpp"
#include "lodeway/walking/way.hpp"

namespace lodeway::trip {

/// Sets the empty remarks of legs along a line: "Fallow Beck on your left". Looked for each 25 m
/// within 60 m: water, walls, fences, hedges, roads, railways, cliffs and lake shores of which at
/// least seven in ten places see the same side and one in ten at most the other; the one seen most
/// often is named. Practice: no source for these bounds.
void note_sides(walking::Way& way, const walking::Ground& ground, Language language);

}  // namespace lodeway::trip
