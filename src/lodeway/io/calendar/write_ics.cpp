#include "lodeway/io/calendar/write_ics.hpp"

#include <fmt/format.h>

#include "lodeway/io/files/write_beside.hpp"

namespace lodeway::io {

namespace {

/// RFC 5545, 3.3.11: backslash, semicolon, comma and line ends are escaped.
std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    if (c == '\n') out += "\\n";
    else if (static_cast<unsigned char>(c) >= 0x20) out += c;
  }
  return out;
}

/// RFC 5545, 3.1: at most 75 octets a line, the break being CRLF and a blank.
void add_line(std::string& out, const std::string& line) {
  constexpr std::size_t most = 75;
  std::size_t at = 0, room = most;
  while (line.size() - at > room) {
    std::size_t end = at + room;
    while (end > at && (static_cast<unsigned char>(line[end]) & 0xC0U) == 0x80U) --end;
    out.append(line, at, end - at);
    out += "\r\n ";
    at = end;
    room = most - 1;  // the blank counts
  }
  out.append(line, at, std::string::npos);
  out += "\r\n";
}

/// "20261114T131400Z"
std::string utc_text(earth::UtcSeconds at) {
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day date{day};
  const std::chrono::hh_mm_ss time{at - day};
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

}  // namespace

std::string ics_text(const std::vector<CalendarTime>& times, earth::UtcSeconds made) {
  std::string out;
  add_line(out, "BEGIN:VCALENDAR");
  add_line(out, "VERSION:2.0");
  add_line(out, "PRODID:-//Lodeway//Lodeway//EN");
  add_line(out, "CALSCALE:GREGORIAN");
  for (const auto& time : times) {
    add_line(out, "BEGIN:VEVENT");
    add_line(out, "UID:" + escaped(time.uid));
    add_line(out, "DTSTAMP:" + utc_text(made));
    add_line(out, "DTSTART:" + utc_text(time.at));
    add_line(out, "SUMMARY:" + escaped(time.summary));
    add_line(out, "DESCRIPTION:" + escaped(time.description));
    add_line(out, "TRANSP:TRANSPARENT");
    add_line(out, "BEGIN:VALARM");
    add_line(out, "ACTION:DISPLAY");
    add_line(out, "DESCRIPTION:" + escaped(time.summary));
    add_line(out, "TRIGGER:PT0S");
    add_line(out, "END:VALARM");
    add_line(out, "END:VEVENT");
  }
  add_line(out, "END:VCALENDAR");
  return out;
}

Result<void> write_ics(const std::vector<CalendarTime>& times, earth::UtcSeconds made,
                       const std::string& path) {
  return write_beside(path, ics_text(times, made));
}

}  // namespace lodeway::io
