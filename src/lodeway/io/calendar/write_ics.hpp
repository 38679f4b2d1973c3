#pragma once
/// Times as iCalendar. Source: RFC 5545 (Internet Calendaring and Scheduling, 2009).
#include <string>
#include <vector>

#include "lodeway/earth/time_zone.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// A moment to be reminded of. An alarm is set at the moment itself.
struct CalendarTime {
  std::string uid;  ///< the same moment of the same trip keeps its own, so that a new file replaces it
  std::string summary, description;  ///< UTF-8, one line each
  earth::UtcSeconds at;
};

/// One VEVENT of no length a time, in UTC, with a display alarm; lines end in CRLF and are folded at
/// 75 octets, never within a letter. `made`: when the file was made (DTSTAMP).
[[nodiscard]] std::string ics_text(const std::vector<CalendarTime>& times, earth::UtcSeconds made);
/// The same as a file, written beside and renamed. Faults: io_failed.
[[nodiscard]] Result<void> write_ics(const std::vector<CalendarTime>& times,
                                     earth::UtcSeconds made, const std::string& path);

}  // namespace lodeway::io
