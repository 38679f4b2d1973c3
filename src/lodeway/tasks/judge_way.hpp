#pragma once
/// How sure a way is, on the trip's own date: what planning and rehearsal both need.
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// One sigma of the declination at the trip's start, degrees. Faults: as magnetic::field_at.
[[nodiscard]] Result<double> declination_sigma_deg(const walking::Ground& ground,
                                                   const trip::Trip& trip);

}  // namespace lodeway::tasks
