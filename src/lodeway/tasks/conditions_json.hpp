#pragma once
/// The table of conditions as JSON: the one writer that command and server share. Schema:
/// web/api.schema.json (ConditionRow).
#include <vector>

#include "lodeway/tasks/conditions.hpp"
#include "lodeway/tasks/say.hpp"

namespace lodeway::tasks {

/// A row a condition, in their order; titles and words in the trip's language.
[[nodiscard]] Json conditions_json(const std::vector<ConditionRow>& rows, const trip::Trip& trip);

}  // namespace lodeway::tasks
