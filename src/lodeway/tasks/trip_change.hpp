#pragma once
/// What newly learnt figures change in the verdict on a trip: the same way, leg by leg, judged for
/// the party as it was known before and as it is known now.
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
  double kept = 0;                       ///< of the way: averaged over what is not known
  double keep_off = 0;                   ///< parties on ground to keep off
};

struct LegChange {
  std::string from, to;
  Judgement before, now;
  [[nodiscard]] bool changed() const { return before.band != now.band; }
};

struct TripChange {
  std::string trip, way;
  Judgement before, now;
  std::vector<LegChange> legs;
};

/// The way is the one that is found for the party as it was known before, and its walking minutes
/// stay as they were then. Faults: as plan_trip; cancelled.
[[nodiscard]] Result<TripChange> trip_change(const PlanRequest& request,
                                             const learn::PartyRecord& before,
                                             const learn::PartyRecord& now,
                                             Progress* progress = nullptr);

/// The legs that change their verdict, one a line, or that none does.
[[nodiscard]] std::string trip_change_as_text(
    const TripChange& change, units::Language language = units::Language::english);
/// {trip, way, before, now, legs: [{leg, from, to, before, now, changed}]}, each judgement
/// {verdict, kept, keep_off}.
[[nodiscard]] std::string trip_change_as_json(const TripChange& change);

}  // namespace lodeway::tasks
