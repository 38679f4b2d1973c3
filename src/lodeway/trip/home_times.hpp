#pragma once
/// The three times of the home note as moments: for a calendar, in the trip's language.
#include <string>
#include <vector>

#include "lodeway/earth/time_zone.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::trip {

struct HomeTime {
  std::string key;             ///< "back", "worry", "act"
  std::string title, meaning;  ///< as the home note says it
  earth::UtcSeconds at;
};

/// Back at, no worry before, call for help at: as on the note, whole minutes of the trip's own
/// clock; the first alone where no hour can be named (Schedule::end_slow). Faults: bad_input (a time zone that is not known).
[[nodiscard]] Result<std::vector<HomeTime>> home_times(const Plan& plan);

/// The card's line on the day's end: planned, slow, alarm; or that no hour can be named.
[[nodiscard]] std::string end_words(const Plan& plan);

}  // namespace lodeway::trip
