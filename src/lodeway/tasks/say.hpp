#pragma once
/// A leg, a way and a plan as JSON: the one writer that command and server share. Every key ends in
/// its unit; what is not known is null. Schema: web/api.schema.json (Leg, Way, Schedule, ...).
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "lodeway/tasks/ways.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

using Json = nlohmann::ordered_json;

[[nodiscard]] Json point_json(earth::GridPoint p);
[[nodiscard]] Json line_json(const std::vector<earth::GridPoint>& line);
[[nodiscard]] Json number_or_null(const std::optional<double>& value);
[[nodiscard]] Json text_or_null(const std::string& text);
/// `key`: "09:15", or "00:40 +1" of the next day; `key`_clock_min: minutes since the trip date's
/// midnight. Both null where there is no time.
void add_clock(Json& out, const std::string& key, const std::optional<trip::Clock>& time,
               const trip::Daylight& day);

/// Leg `index` of a plan; `in_a_day` false: a leg that is not in a day (a quick one), its times
/// null.
[[nodiscard]] Json leg_json(const trip::Plan& plan, std::size_t index, bool in_a_day = true);
[[nodiscard]] Json daylight_json(const trip::Daylight& day);
/// The day: the way's times and the daylight's.
[[nodiscard]] Json schedule_json(const trip::Schedule& schedule, const trip::Daylight& day);
[[nodiscard]] Json norths_json(const trip::Plan& plan);
/// The first thing said of a plan: band, headline, sentences, and each reason with its figures.
[[nodiscard]] Json verdict_json(const trip::Plan& plan);
[[nodiscard]] Json warnings_json(const trip::Plan& plan);

/// What a way is called: `name` is that of its choice, or "given".
struct CalledWay {
  std::string name, title;
};
[[nodiscard]] CalledWay called(const trip::Trip& trip, walking::Choice choice);
/// A way with its whole day; `plan` is made of `way`'s outcome.
[[nodiscard]] Json way_json(const PlannedWay& way, const trip::Plan& plan,
                            const walking::Ground& ground, bool picked);

}  // namespace lodeway::tasks
