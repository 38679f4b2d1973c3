#pragma once
/// How to get off the hill from each leg: one field back from ground that people live on or drive
/// on. Method: docs/method/ways-off.md
#include "lodeway/route/find_path.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/way.hpp"

namespace lodeway::route {

/// Sets `Leg::way_off` from each leg's middle to the road, settlement or hut that is reached
/// soonest: its name, minutes as the party walks on a slow day, the direction of the first 150 m
/// and the line. A leg from which none can be reached, or that runs on a road itself, gets none.
/// How safe a way off is in this weather is not judged.
void set_ways_off(const walking::Ground& ground, const walking::Party& party,
                  const Prepared& prepared, units::Language language, walking::Way& way);

}  // namespace lodeway::route
