#pragma once
/// From a trip and a way whose legs are known to the finished plan.
#include "lodeway/earth/time_zone.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"
#include "lodeway/walking/walked_days.hpp"

namespace lodeway::trip {

/// The day of a way: schedule, daylight at its start, norths at its middle and at each leg's start
/// (on the trip's date, height of the ground as height above the ellipsoid: the difference of the
/// two changes declination by less than 0.001 degrees), what keeps to one side of each leg.
/// `escapes`: a list a leg, or none at all; `days`: of parties that walked the way, by which the
/// slow day goes; without any it goes by the bands of the party's times. Faults: outside_validity (a
/// date that the magnetic model does not cover), bad_input (an unknown time zone), no_way (a way
/// without legs).
[[nodiscard]] Result<Outcome> outcome_of(
    const walking::Ground& ground, const Trip& trip, reckoning::JudgedWay way,
    std::vector<std::vector<reckoning::Escape>> escapes = {},
    const walking::WalkedDays& days = {});

/// The plan of a trip as it stands now: bearings, millimetres, references, totals, warnings, made
/// anew each time. `trip` asks for the same way as the one that `outcome` was found for.
[[nodiscard]] Plan plan_of(const Outcome& outcome, const Trip& trip, const walking::Ground& ground);

/// The instant at which the party sets out. Faults: as earth::to_utc.
[[nodiscard]] Result<earth::UtcSeconds> start_instant(const Trip& trip);

/// The sun's day at a place, in minutes as they pass, and where clocks change about it. What the
/// sun does not do that day is absent, and `state` says so in the trip's language. Faults: as
/// earth::sun_day, to_utc.
[[nodiscard]] Result<Daylight> daylight_of(const walking::Ground& ground, const Trip& trip,
                                           earth::GridPoint place);

}  // namespace lodeway::trip
