#include "lodeway/trip/duration_text.hpp"

#include <cmath>

#include <fmt/format.h>

namespace lodeway::trip {

std::string duration_text(double minutes) {
  const auto m = std::lround(std::abs(minutes));
  return m < 60 ? fmt::format("{} min", m) : fmt::format("{} h {:02} min", m / 60, m % 60);
}

}  // namespace lodeway::trip
