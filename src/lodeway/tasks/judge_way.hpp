#pragma once
/// How sure a way is, on the trip's own date: what planning and rehearsal both need.
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// One sigma of the declination at the trip's start, degrees. Faults: as magnetic::field_at.
[[nodiscard]] Result<double> declination_sigma_deg(const walking::Ground& ground,
                                                   const trip::Trip& trip);

/// Fills each leg's sureness and aim-off; answers the whole way's certainty.
/// Faults: bad_input (error figures), outside_validity (a date that the magnetic model does not
/// cover).
[[nodiscard]] Result<double> judge_way(const walking::Ground& ground, const trip::Trip& trip,
                                       walking::Way& way);

}  // namespace lodeway::tasks
