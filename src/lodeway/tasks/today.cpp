#include "lodeway/tasks/today.hpp"

#include <charconv>
#include <chrono>
#include <cstdlib>
#include <string_view>
#include <utility>

#include "lodeway/trip/warnings.hpp"

namespace lodeway::tasks {

earth::UtcSeconds now() {
  if (const char* given = std::getenv("SOURCE_DATE_EPOCH")) {
    const std::string_view text(given);
    std::int64_t seconds = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
    if (error == std::errc() && end == text.data() + text.size())
      return earth::UtcSeconds{std::chrono::seconds{seconds}};
  }
  return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

trip::Plan as_of_today(trip::Plan plan) {
  if (auto past = trip::past_warning(plan, now()))
    plan.warnings.insert(plan.warnings.begin(), *std::move(past));
  return plan;
}

}  // namespace lodeway::tasks
