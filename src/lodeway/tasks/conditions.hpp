#pragma once
/// The picked way when the day goes otherwise than planned: what holds, and what to fall back on.
/// Method: docs/method/conditions.md
#include <optional>
#include <string>
#include <vector>

#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/ways.hpp"

namespace lodeway::tasks {

/// In the order of the rows.
enum class Condition : unsigned char {
  as_planned,
  other_sight,  ///< cloud comes down; planned for less than clear air: it lifts
  hour_late,
  streams_up,  ///< no water is crossed without a bridge
  slower,      ///< a fifth slower than the party says
  snow
};
inline constexpr int condition_count = 6;

/// What to do where the way is outside the limits or not judged.
enum class Fallback : unsigned char {
  none_needed,
  other_way,    ///< another of the ways found is within or close to the limits then
  turn_back,    ///< at the start of the first leg that fails take the escape route from there
  start_sooner, ///< by the latest start, and if that has passed not at all
  stay_home     ///< it fails before there is anywhere to turn
};

struct ConditionRow {
  Condition condition = Condition::as_planned;
  std::string title;  ///< in the plan's language
  trip::Verdict verdict;
  double certainty = 0, keep_off = 0, minutes = 0;
  trip::Clock end{};
  std::optional<trip::Clock> end_slow;  ///< absent: no hour can be named, trip::Schedule
  trip::Daylight daylight;  ///< of that day: what a clock shows then
  Fallback fallback = Fallback::none_needed;
  int leg = -1;       ///< index of the leg that fails first; -1: none, or the day as a whole
  std::string then;   ///< the fallback in words
};

/// One row a condition, `as_planned` first. The legs stay as they are planned; what is seen on them,
/// their times and how sure they are is worked out anew. Streams up: each ford by the way round,
/// and where there is none the leg does not go. Snow: on the slopes that snow allows (30 degrees
/// unless the trip says less). Under a second for 12 km.
/// `only`: that row alone, the same as it is among the others; some 0.1 s.
/// Faults: as trip::outcome_of; cancelled.
[[nodiscard]] Result<std::vector<ConditionRow>> conditions_of(
    const walking::Ground& ground, const route::WayFinder& finder, const PlannedWays& ways,
    Progress* progress = nullptr, std::optional<Condition> only = std::nullopt);

/// "cloud", "streams_up": for programs.
[[nodiscard]] const char* condition_name(Condition condition, bool planned_for_clear);
[[nodiscard]] const char* fallback_name(Fallback fallback);

/// A table of the rows.
[[nodiscard]] std::string conditions_as_text(const std::vector<ConditionRow>& rows,
                                             const trip::Trip& trip);

}  // namespace lodeway::tasks
