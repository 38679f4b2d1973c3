#pragma once
/// What a ground holds and lacks, as a person reads it.
#include <string>

#include "lodeway/tasks/ground.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::tasks {

/// A line that has no German (units/refusal_in.hpp) stays whole in English.
[[nodiscard]] std::string ground_text(const GroundSummary& summary, units::Language language);

}  // namespace lodeway::tasks
