#pragma once
/// The core's values in the words of web/api.schema.json; legs, ways and days: lodeway/tasks/say.hpp.
#include "apps/server/http/message.hpp"
#include "lodeway/tasks/say.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::server {

using tasks::line_json;
using tasks::number_or_null;
using tasks::point_json;
using tasks::text_or_null;

[[nodiscard]] Json options_json();

/// Place of the schema. Faults: outside_validity.
[[nodiscard]] Result<Json> place_json(const walking::Ground& ground, earth::GridPoint at);

}  // namespace lodeway::server
