#pragma once
/// Ways to choose from: the quick, the middle and the sure one of a trip, each a whole plan.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/walked_days.hpp"

namespace lodeway::tasks {

class DayWalk;

struct PlannedWay {
  walking::Choice choice = walking::Choice::quick;
  trip::Outcome outcome;    ///< its certainty: as told, trip::way_kept_told of `averaged` and `days`
  trip::Plan plan;          ///< made of the outcome for the trip that was asked for
  double expected_min = 0;  ///< walking, and recovery by the chance that it is needed
  double averaged = 0;      ///< certainty worked out: the mean over what is not known of the party
  double as_known = 0;      ///< product of the legs' certainties: the party's figures as known
  double hazard = 0;        ///< chance to set foot on ground barred to the party, on any leg
  walking::WalkedDays days;  ///< of parties that walked it and were never put back
  std::vector<std::string> remarks;  ///< what its legs fall short of; trip::shortfalls
  /// Share of those who kept every leg at the first try; absent: nobody walked.
  [[nodiscard]] std::optional<double> walked_kept() const {
    if (days.parties == 0) return std::nullopt;
    return static_cast<double>(days.kept) / static_cast<double>(days.parties);
  }
};

struct PlannedWays {
  std::vector<PlannedWay> ways;  ///< one to three, quickest first
  std::size_t picked = 0;        ///< index; the rule: pick_way.hpp
  std::string picked_why;        ///< where it is another than was asked for; else empty
  std::vector<std::string> remarks;  ///< a sentence each: why fewer, which limit is not met
  bool beyond_piece = false;         ///< as route::Ways
  /// What they were judged by; refers to the finder's ground. Of a PlannedTrip none.
  std::shared_ptr<const route::JudgedOn> on;
  /// The world that parties walked them in, for other sorts of day; as `on`.
  std::shared_ptr<const DayWalk> day;
};

/// Finds, judges, lets parties walk that are never put back (walked_days.hpp), and lays out by the
/// clock. The finder is made once
/// for a ground and may serve many trips at the same time. `trip.request.choice` says which is
/// picked, unless more stray on it than the limit and fewer on another. The same answer on every
/// run and however many threads. Faults: as WayFinder::find, make_plan; cancelled.
[[nodiscard]] Result<PlannedWays> plan_ways(const walking::Ground& ground,
                                            const route::WayFinder& finder, const trip::Trip& trip,
                                            Progress* progress = nullptr);

/// Why the picked way goes leg `leg` (from 1) so, and what the next best would be. Faults:
/// bad_input (no such leg); as plan_ways.
[[nodiscard]] Result<std::string> explain_leg(const route::WayFinder& finder,
                                              const PlannedWays& ways, int leg);

}  // namespace lodeway::tasks
