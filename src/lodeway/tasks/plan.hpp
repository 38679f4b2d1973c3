#pragma once
/// The main use: a trip file and its ground in, a finished plan out.
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

struct PlanRequest {
  std::string trip_file;
  std::string ground_file;  ///< empty: the one that the trip file names
};

struct PlannedTrip {
  walking::Ground ground;
  trip::Plan plan;
};

/// Opens the ground, reads the trip, finds the way, judges each leg, works out card and schedule.
/// Faults: as the parts give them, with the file and place in front.
[[nodiscard]] Result<PlannedTrip> plan_trip(const PlanRequest& request,
                                            Progress* progress = nullptr);

/// The plan as JSON: legs with their figures, units in the names, unrounded; schedule; warnings.
[[nodiscard]] std::string plan_as_json(const PlannedTrip& planned);
/// The plan for people: a few lines a leg, then the day.
[[nodiscard]] std::string plan_as_text(const PlannedTrip& planned);

}  // namespace lodeway::tasks
