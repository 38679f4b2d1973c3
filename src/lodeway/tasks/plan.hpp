#pragma once
/// The main use: a trip file and its ground in, a finished plan out.
#include <memory>
#include <optional>
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/conditions.hpp"
#include "lodeway/trip/rest_of_trip.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/tasks/ways.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::learn {
struct PartyRecord;
}

namespace lodeway::tasks {

struct PlanRequest {
  std::string trip_file;
  std::string ground_file;                ///< empty: the one that the trip file names
  std::optional<walking::Choice> choice;  ///< instead of what the trip file picks
  int explain_leg = 0;                    ///< of the picked way, from 1; 0: none
  bool for_sheets = false;                ///< the ground that its map sheets may show is wanted too
  bool conditions = false;                ///< work out what becomes of it when the day changes
  std::shared_ptr<const learn::PartyRecord> party;  ///< instead of the file that the trip names
  std::optional<trip::FromHere> from_here;          ///< the rest of the trip, from another place
};

struct PlannedTrip {
  walking::Ground ground;  ///< of a large one the piece that the trip could touch
  trip::Plan plan;         ///< of the picked way
  PlannedWays ways;        ///< all that there are to choose from
  std::string explained;   ///< why the leg asked for, and not the next best
  std::vector<ConditionRow> conditions;  ///< where they were asked for
};

/// Opens the ground, reads the trip, finds the ways to choose from, judges each leg, works out card
/// and schedule. Faults: as the parts give them, with the file and place in front.
[[nodiscard]] Result<PlannedTrip> plan_trip(const PlanRequest& request,
                                            Progress* progress = nullptr);

/// The plan as JSON: legs with their figures, units in the names, unrounded; schedule; warnings.
[[nodiscard]] std::string plan_as_json(const PlannedTrip& planned);
/// The ways to choose from side by side, then the picked one: a few lines a leg, then the day.
[[nodiscard]] std::string verdict_as_text(const trip::Plan& plan);
[[nodiscard]] std::string plan_as_text(const PlannedTrip& planned);
/// A line for each warning that is no less severe, "DANGER: ..." first.
[[nodiscard]] std::string warnings_as_text(const trip::Plan& plan,
                                           trip::Severity least = trip::Severity::note);

}  // namespace lodeway::tasks
