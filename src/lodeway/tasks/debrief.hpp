#pragma once
/// A walked trip against its plan: from a track, or from the clock times written on the card.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/learn/debrief/debrief.hpp"
#include "lodeway/tasks/plan.hpp"

namespace lodeway::tasks {

struct DebriefRequest {
  PlanRequest plan;
  std::string track;                 ///< GPX; empty: clock times only
  std::vector<std::string> arrived;  ///< "10:15" at each leg's end, from the card's "actual"
  std::string left;                  ///< "09:20", when they set out; empty: the trip's start
  std::string folder;                ///< for debrief.pdf and seen.toml; empty: nothing is written
};

struct Debriefed {
  PlannedTrip planned;
  std::vector<learn::DebriefLeg> legs;
  learn::Debrief debrief;
  bool from_track = false;
  std::vector<std::string> notes;  ///< another day than planned, points left out
  std::vector<std::string> files;
};

/// Faults: as plan_trip and io::read_gpx_track; bad_input (no times, a track of another ground,
/// more clock times than legs, times that go back); io_failed; cancelled.
[[nodiscard]] Result<Debriefed> debrief_trip(const DebriefRequest& request,
                                             Progress* progress = nullptr);

[[nodiscard]] std::string debriefed_as_text(const Debriefed& d);
[[nodiscard]] std::string debriefed_as_json(const Debriefed& d);

}  // namespace lodeway::tasks
