#include "lodeway/tasks/clock.hpp"

#include <charconv>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

namespace lodeway::tasks {

namespace {
bool number(std::string_view text, double& into) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), into);
  return error == std::errc() && end == text.data() + text.size();
}
}  // namespace

Result<double> clock_minutes(const std::string& text, const std::string& what) {
  const auto wrong = [&] {
    return fail(FaultCode::bad_input,
                fmt::format("{}: expected a clock time such as 14:55 or \"00:20 +1\", got \"{}\"",
                            what, text));
  };
  const auto blank = text.find(' ');
  const auto clock = text.substr(0, blank);
  const auto colon = clock.find(':');
  double hours = 0, minutes = 0, days = 0;
  if (colon == std::string::npos || clock.size() - colon != 3 ||
      !number(clock.substr(0, colon), hours) || !number(clock.substr(colon + 1), minutes))
    return wrong();
  if (blank != std::string::npos) {
    const auto after = text.substr(blank + 1);
    if (after.size() != 2 || after[0] != '+' || !number(after.substr(1), days)) return wrong();
  }
  if (!(hours >= 0 && hours < 24 && minutes >= 0 && minutes < 60 && days >= 0 && days <= 3) ||
      hours != std::floor(hours) || minutes != std::floor(minutes))
    return wrong();
  return days * 1440 + hours * 60 + minutes;
}

}  // namespace lodeway::tasks
