#pragma once
/// From a trip and a way whose legs are known to the finished plan.
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// Fills the legs' magnetic bearings (declination and convergence at each leg's own start, on the
/// trip's date, height of the ground as height above the ellipsoid: the difference of the two
/// changes declination by less than 0.001 degrees), norths at the middle of the way, daylight at
/// its start, schedule, grid references, totals and warnings. Faults: outside_validity (a date that
/// the magnetic model does not cover), bad_input (an unknown time zone, a way without legs).
[[nodiscard]] Result<Plan> make_plan(const walking::Ground& ground, Trip trip, walking::Way way);

/// The sun's day at a place, in minutes of the trip's own clock. Faults: as earth::sun_day, to_utc.
[[nodiscard]] Result<Daylight> daylight_of(const walking::Ground& ground, const Trip& trip,
                                           earth::GridPoint place);

}  // namespace lodeway::trip
