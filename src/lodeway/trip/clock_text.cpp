#include "lodeway/trip/clock_text.hpp"

#include <fmt/format.h>

namespace lodeway::trip {

std::string clock_text(Clock time) {
  constexpr long day = 24 * 60;
  long minutes = time.count() % day, days = time.count() / day;
  if (minutes < 0) {
    minutes += day;
    --days;
  }
  auto text = fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
  return days == 0 ? text : text + fmt::format(" {:+}", days);
}

std::string clock_text(Clock time, const Daylight& day) {
  const auto& c = day.change;
  return clock_text(c ? time + (time < c->at ? c->before : c->after) : time);
}

std::string zoned(const std::string& clock, const Trip& trip) {
  return clock + " (" + trip.zone + ")";
}

}  // namespace lodeway::trip
