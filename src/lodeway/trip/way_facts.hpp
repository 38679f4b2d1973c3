#pragma once
/// What a verdict needs to know of a plan.
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// From a plan whose legs with their fords, schedule and norths stand. Of the fords that a leg tells,
/// rivers and those within 15 m of a ford of the map are water to wade; a stream without one is stepped
/// over (*practice*). Water is
/// unknown where no map told the ground file of a river, stream, lake or sea; what the heights alone
/// suggest does not count. Chances are the legs' own; the
/// whole way's harm is 1 - product of (1 - each leg's).
[[nodiscard]] WayFacts facts_of(const Plan& plan, const walking::Ground& ground);

/// The limits that the trip sets.
[[nodiscard]] Limits limits_of(const Trip& trip);

}  // namespace lodeway::trip
