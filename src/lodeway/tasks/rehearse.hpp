#pragma once
/// Walk a planned trip many times in simulation.
#include <cstdint>
#include <string>

#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/tasks/plan.hpp"

namespace lodeway::tasks {

struct RehearseRequest {
  PlanRequest plan;
  std::size_t walkers = 10000;
  std::uint64_t seed = 1;
  std::string picture;  ///< PNG of where walkers stray; empty: none
  std::string raster;   ///< the same as GeoTIFF; empty: none
};

struct RehearsedTrip {
  PlannedTrip planned;
  reckoning::Rehearsal rehearsal;
};

/// Plans, rehearses on all processors, writes the files asked for.
/// Faults: of planning; bad_input (0 walkers); too_large; io_failed.
[[nodiscard]] Result<RehearsedTrip> rehearse_trip(const RehearseRequest& request,
                                                  Progress* progress = nullptr);

/// The same of a plan that is there already. Faults: of reckoning::rehearse; cancelled.
[[nodiscard]] Result<reckoning::Rehearsal> rehearse_plan(const walking::Ground& ground,
                                                         const trip::Plan& plan,
                                                         const reckoning::RehearsalRequest& request,
                                                         Progress* progress = nullptr);

[[nodiscard]] std::string rehearsal_as_json(const RehearsedTrip& rehearsed);
[[nodiscard]] std::string rehearsal_as_text(const RehearsedTrip& rehearsed);

}  // namespace lodeway::tasks
