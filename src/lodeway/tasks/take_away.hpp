#pragma once
/// What is taken away from a plan beside the paper.
#include <string>

#include "lodeway/earth/time_zone.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::tasks {

/// The three times of the home note as a calendar file (iCalendar), for the contact at home: each
/// with what it means and whom to ring. The same trip and day replace what an earlier file of it
/// put into the calendar. Faults: bad_input (time zone), io_failed.
[[nodiscard]] Result<void> write_home_calendar(const trip::Plan& plan, earth::UtcSeconds made,
                                               const std::string& path);

}  // namespace lodeway::tasks
