#pragma once
/// What a verdict needs to know of a plan.
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// From a plan whose legs, schedule and norths stand. A ford of the map within 15 m of a leg is
/// water to wade; a stream without one is stepped over, and told as a tick-off (*practice*). Water is
/// unknown where no map told the ground file of a river, stream, lake or sea; what the heights alone
/// suggest does not count. Chances are the legs' own; the
/// whole way's harm is 1 - product of (1 - each leg's).
[[nodiscard]] WayFacts facts_of(const Plan& plan, const walking::Ground& ground);

/// The limits that the trip sets.
[[nodiscard]] Limits limits_of(const Trip& trip);

}  // namespace lodeway::trip
