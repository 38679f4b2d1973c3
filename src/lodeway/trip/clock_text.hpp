#pragma once
/// Clock times as text.
#include <string>

#include "lodeway/trip/plan.hpp"

namespace lodeway::trip {

/// "14:05"; past midnight "00:20 +1", the day before "23:10 -1": days from the trip's date.
[[nodiscard]] std::string clock_text(Clock time);

/// "09:15 (Europe/Dublin)": a start is never read without the zone whose clock it is.
[[nodiscard]] std::string zoned(const std::string& clock, const Trip& trip);

}  // namespace lodeway::trip
