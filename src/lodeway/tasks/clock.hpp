#pragma once
/// Clock times as they are typed.
#include <string>

#include "lodeway/result/result.hpp"

namespace lodeway::tasks {

/// "14:55", "00:20 +1" (the day after; at most 3): whole minutes since the trip date's midnight.
/// `what`: the option that is named in the fault. Faults: bad_input.
[[nodiscard]] Result<double> clock_minutes(const std::string& text, const std::string& what);

}  // namespace lodeway::tasks
