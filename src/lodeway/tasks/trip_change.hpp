#pragma once
/// What newly learnt figures change on a trip: the same way, leg by leg, judged and timed for the
/// party as it was known before and as it is known now.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/learn/record/record.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/tasks/plan.hpp"
#include "lodeway/trip/verdict.hpp"

namespace lodeway::tasks {

/// Of one leg, or of the whole way. Chances of 1.
struct Judgement {
  trip::Band band = trip::Band::within;  ///< the worst of the leg's own reasons
  double kept = 0;                       ///< of the way: as it is told (trip::way_kept_told)
  double keep_off = 0;                   ///< parties on ground to keep off
  double minutes = 0;                    ///< walking, the middle of the party's times
};

/// When the day ends: clock times of the trip's day as text, "13:14".
struct DayEnd {
  std::string end;
  std::optional<std::string> slow;  ///< of a slow day; absent: no hour can be named
};

struct LegChange {
  std::string from, to;
  Judgement before, now;
  [[nodiscard]] bool changed() const { return before.band != now.band; }
};

struct TripChange {
  std::string trip, way;
  Judgement before, now;
  DayEnd day_before, day_now;
  std::vector<LegChange> legs;
};

/// One of the ways found for the party as it was known before, gone by it as it is known now: the
/// legs stay; their times, how sure they are, the walked days and the clock are worked out anew.
/// `before`: the plan of `way`; `finder`: of the same ground, as the party `now` knows its kinds;
/// `now`: the trip of `before` but for the party. About a second for 12 km. Faults: as
/// trip::outcome_of.
[[nodiscard]] Result<TripChange> change_of_way(const PlannedWay& way, const trip::Plan& before,
                                               const route::WayFinder& finder,
                                               const trip::Trip& now);

/// The same of the way that is found for the trip and the party as it was known before. Faults: as
/// plan_trip; cancelled.
[[nodiscard]] Result<TripChange> trip_change(const PlanRequest& request,
                                             const learn::PartyRecord& before,
                                             const learn::PartyRecord& now,
                                             Progress* progress = nullptr);

/// How many keep it and when it ends, then the legs that change their verdict, one a line, or that
/// none does.
[[nodiscard]] std::string trip_change_as_text(const TripChange& change,
                                              units::Language language = units::Language::english);
/// {trip, way, before, now, end_before, end_now, legs: [{leg, from, to, before, now, changed}]},
/// each judgement {verdict, kept, keep_off, minutes}, each end {clock, slow: clock or null}.
[[nodiscard]] std::string trip_change_as_json(const TripChange& change);

}  // namespace lodeway::tasks
