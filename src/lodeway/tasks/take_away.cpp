#include "lodeway/tasks/take_away.hpp"

#include <fmt/format.h>

#include "lodeway/io/calendar/write_ics.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/home_times.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::tasks {

namespace {

/// Letters and figures of a name, for an identifier.
std::string plain(const std::string& name) {
  std::string out;
  for (const char c : name) {
    const bool keeps = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (keeps)
      out += c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  return out;
}

}  // namespace

Result<void> write_home_calendar(const trip::Plan& plan, earth::UtcSeconds made,
                                 const std::string& path) {
  const auto times = trip::home_times(plan);
  if (!times) return std::unexpected(times.error());
  const auto& t = plan.trip;
  const auto day =
      fmt::format("{:04}-{:02}-{:02}", static_cast<int>(t.date.year()),
                  static_cast<unsigned>(t.date.month()), static_cast<unsigned>(t.date.day()));
  std::vector<io::CalendarTime> out;
  for (const auto& time : *times) {
    auto told = fmt::format("{}: {}.", time.title, time.meaning);
    if (!t.leader.phone.empty())
      told += fmt::format(" {}: {} {}.", trip::say(trip::Say::leader, t.language), t.leader.name,
                          t.leader.phone);
    if (time.key == "act" && !t.emergency_number.empty())
      told += fmt::format(" {}: {}.", trip::say(trip::Say::number, t.language), t.emergency_number);
    out.push_back({fmt::format("{}-{}-{}@lodeway.invalid", day, plain(t.name), time.key),
                   fmt::format("{}: {}", t.name.empty() ? "Lodeway" : t.name, time.title), told,
                   time.at});
  }
  return io::write_ics(out, made, path);
}

}  // namespace lodeway::tasks
