#pragma once
/// A way laid out by the clock: rests, stays, the slow day, the last moments.
/// Method: docs/method/schedule.md
#include <span>
#include <vector>

#include "lodeway/trip/plan.hpp"
#include "lodeway/trip/slow_day.hpp"

namespace lodeway::trip {

/// Minutes the holder of the home note spends trying to reach the party before calling for help:
/// the one-hour drill of a national agency (adventuresmart.nz, outdoor
/// intentions).
inline constexpr double drill_minutes = 60;

/// For each point of the request after the first, the index of the leg that ends there; -1 for
/// none.
[[nodiscard]] std::vector<int> legs_that_reach(const walking::Request& request,
                                               const reckoning::JudgedWay& way);

/// Minutes spent resting and staying on one leg.
struct Rests {
  double within_min = 0;  ///< on the way, wherever the party is when a rest falls due
  double after_min = 0;   ///< at its end: planned stays, and a rest due there
};
/// Rests of the party's rule, by its walking time; one that falls due within ten minutes of a leg's
/// end is taken there, where the place is known. A stay at least as long as a rest is one. No rest
/// after the last leg.
[[nodiscard]] std::vector<Rests> rests_of(const walking::Request& request,
                                          const reckoning::JudgedWay& way);
/// The same of legs of which minutes and the stays at their ends are known, one each.
[[nodiscard]] std::vector<Rests> rests_of(const walking::Party& party,
                                          std::span<const double> minutes,
                                          std::span<const double> stays);
/// Planned stays at the legs' ends, one a leg.
[[nodiscard]] std::vector<double> stays_of(const walking::Request& request,
                                           const reckoning::JudgedWay& way);
/// Minutes of rest on a walk straight home that takes this long; none at its very end.
[[nodiscard]] double rests_on_the_way_back(const walking::Party& party, double minutes);

/// Does the party set out to walk by night? Then darkness is no surprise.
[[nodiscard]] bool planned_for_night(const Trip& trip);

/// Does the day's end bound this trip? Not where it does not get dark, nor for who sets out to walk
/// by night or after the light is gone.
[[nodiscard]] bool held_to_daylight(const Trip& trip, const Daylight& daylight);

/// `back_minutes[k]`: walking time of the middle day from the end of leg k back to the start by the
/// same legs. No worry until: the end of the slow day. The turn-round is the latest time at a known
/// place from which the slow day, back or on, ends by `end_slow`, and by last light where the day
/// bounds the trip: who obeys it is never called for. It may lie before the planned arrival there,
/// and then nobody should start like this. Accuracy: whole minutes. Needs one leg at least, and as
/// many back times as legs.
[[nodiscard]] Schedule make_schedule(const Trip& trip, const reckoning::JudgedWay& way,
                                     const Daylight& daylight,
                                     const std::vector<double>& back_minutes, const SlowDay& slow);

}  // namespace lodeway::trip
