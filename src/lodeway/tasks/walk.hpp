#pragma once
/// Parties that really walk a planned trip: what the lost do, where an overdue party may be.
/// Method: docs/method/walkers.md
#include <optional>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walkers/overdue.hpp"

namespace lodeway::tasks {

struct WalkRequest {
  std::size_t walkers = 10000;
  std::uint64_t seed = 1;
  std::size_t tracks = 0;    ///< of the first parties
  std::string gpx, geojson;  ///< where tracks are written; empty: nowhere
  std::string at;  ///< clock, "14:55", after midnight "00:20 +1"; empty: when home calls for help
  std::vector<std::string> looked;  ///< "2=0.6" (area, chance of detection) or "2=40,3000"
                                    ///< (sweep width and length of tracks, metres)
  std::string picture, raster;      ///< of where they are at `at`; empty: none
};

struct WalkedTrip {
  walkers::Walked walked;
  walkers::Overdue overdue;
  bool stopped = false;                 ///< of fewer parties than were asked for
  std::vector<std::string> references;  ///< of the overdue areas, in their order: six figures
  trip::Daylight daylight{};            ///< of the plan: what a clock shows
};

/// Walks a plan on all processors. When `progress` stops it once parties have walked, the answer is
/// of those. Faults: bad_input (no parties, a time that
/// is none, a look that names no area), too_large; cancelled, when nobody has walked yet.
[[nodiscard]] Result<WalkedTrip> walk_plan(const walking::Ground& ground, const trip::Plan& plan,
                                           const WalkRequest& request,
                                           Progress* progress = nullptr);
/// Writes the tracks, the picture and the raster that were asked for. Faults: io_failed.
[[nodiscard]] Result<void> write_walk(const walking::Ground& ground, const trip::Plan& plan,
                                      const WalkRequest& request, const WalkedTrip& walked);

/// A few paragraphs and a table for people; JSON with the keys of docs/method/walkers.md.
[[nodiscard]] std::string walk_as_text(const trip::Plan& plan, const WalkedTrip& walked);
[[nodiscard]] std::string walk_as_json(const WalkedTrip& walked);
/// A JSON object with the walk as its key `walked`.
[[nodiscard]] std::string with_walk(const std::string& json, const WalkedTrip& walked);

}  // namespace lodeway::tasks
