#pragma once
/// The core's values in the words of web/api.schema.json.
#include <optional>
#include <string>
#include <vector>

#include "apps/server/http/message.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::server {

[[nodiscard]] Json options_json();
[[nodiscard]] Json point_json(earth::GridPoint p);
[[nodiscard]] Json line_json(const std::vector<earth::GridPoint>& line);
[[nodiscard]] Json clock_json(const std::optional<trip::Clock>& time);
[[nodiscard]] Json daylight_json(const trip::Daylight& day);
[[nodiscard]] Json number_or_null(const std::optional<double>& value);
[[nodiscard]] Json text_or_null(const std::string& text);

/// Leg of the schema. `times` null: a leg that is not in a day (a quick one).
[[nodiscard]] Json leg_json(const trip::Plan& plan, std::size_t index, const trip::LegTimes* times);

/// What is known of a way beside its plan.
struct AboutWay {
  std::string name, title, same_as;
  std::optional<double> expected_min, hazard, rehearsed, rehearsed_error;
  std::size_t walkers = 0;
  std::vector<std::string> remarks;
};
[[nodiscard]] Json way_json(const trip::Plan& plan, const walking::Ground& ground,
                            const AboutWay& about);

/// Place of the schema. Faults: outside_validity.
[[nodiscard]] Result<Json> place_json(const walking::Ground& ground, earth::GridPoint at);

}  // namespace lodeway::server
