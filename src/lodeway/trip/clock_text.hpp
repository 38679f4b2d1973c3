#pragma once
/// Clock times as text.
#include <string>

#include "lodeway/trip/plan.hpp"

namespace lodeway::trip {

/// "14:05"; past midnight "00:20 +1", the day before "23:10 -1": days from the trip's date.
[[nodiscard]] std::string clock_text(Clock time);
/// The same as a clock of the trip's zone shows it then: where clocks change, each time has the
/// offset of its own instant.
[[nodiscard]] std::string clock_text(Clock time, const Daylight& day);

/// "09:15 (Europe/Dublin)": a start is never read without the zone whose clock it is.
[[nodiscard]] std::string zoned(const std::string& clock, const Trip& trip);

}  // namespace lodeway::trip
