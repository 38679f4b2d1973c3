#include "lodeway/reckoning/defaults.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include <fmt/format.h>

namespace lodeway::reckoning {

namespace {
constexpr double degree = std::numbers::pi / 180;

// Rows: novice, practised, expert. Two numbers: bearing and sighting sigma, degrees, on a clear
// day. One sighting has sqrt(b^2 + e^2): 3.6 for the practised baseplate ("3-4 normal"), 1.9 for
// the practised mirror ("2, sighted") [practice, docs/method/dead-reckoning.md].
struct Aim {
  double bearing_deg, sighting_deg;
};
constexpr std::array<std::array<Aim, 3>, 2> aim{
    {{{{3.0, 4.5}, {2.0, 3.0}, {1.5, 2.0}}}, {{{2.0, 3.0}, {1.2, 1.5}, {0.9, 1.0}}}}};
// Clear, cloud, night, snow: how far ahead a mark is found, and what the weather does to aim and
// count.
struct Weather {
  double sighting_every_m, aim_factor, distance_factor;
};
constexpr std::array<Weather, mapdata::visibility_count> weather{
    {{150, 1.0, 1.0}, {50, 1.15, 1.1}, {30, 1.4, 1.2}, {40, 1.4, 1.5}}};
// Novice, practised, expert: per leg, step by step, shared stride, shared compass (degrees).
// Per leg and stride together are 10, 5 and 3.6 %: "5 % calibrated, 10 % uncalibrated" [practice].
struct Count {
  double per_leg, random, stride, compass_deg;
};
constexpr std::array<Count, 3> count{
    {{0.08, 0.5, 0.06, 1.5}, {0.04, 0.3, 0.03, 1.0}, {0.03, 0.2, 0.02, 0.7}}};

double or_default(double given, double otherwise) { return given >= 0 ? given : otherwise; }
}  // namespace

Errors errors_of(const walking::Party& party) {
  const auto skill = static_cast<std::size_t>(party.skill);
  const Aim a = aim[static_cast<std::size_t>(party.instrument)][skill];
  const Weather w = weather[static_cast<std::size_t>(party.visibility)];
  const Count c = count[skill];
  const auto& own = party.errors;
  Errors e;
  e.bearing_sigma = or_default(own.bearing_sigma_deg, a.bearing_deg * w.aim_factor) * degree;
  e.sighting_sigma = or_default(own.sighting_sigma_deg, a.sighting_deg * w.aim_factor) * degree;
  e.sighting_every_m = or_default(own.sighting_every_m, w.sighting_every_m);
  e.distance_sigma = or_default(own.distance_sigma, c.per_leg * w.distance_factor);
  e.compass_sigma = or_default(own.compass_sigma_deg, c.compass_deg) * degree;
  e.stride_sigma = or_default(own.stride_sigma, c.stride);
  e.distance_random = own.distance_sigma >= 0 ? 0 : c.random * w.distance_factor;
  return e;
}

Result<Errors> checked_errors_of(const walking::Party& party) {
  struct Field {
    const char* name;
    double value, most;
    const char* expected;
  };
  const auto& own = party.errors;
  for (const Field& f :
       {Field{"bearing_sigma_deg", own.bearing_sigma_deg, 45, "degrees, above 0, at most 45"},
        Field{"sighting_sigma_deg", own.sighting_sigma_deg, 45, "degrees, above 0, at most 45"},
        Field{"sighting_every_m", own.sighting_every_m, 10000, "metres, above 0, at most 10000"},
        Field{"distance_sigma", own.distance_sigma, 1, "a fraction above 0, at most 1"},
        Field{"compass_sigma_deg", own.compass_sigma_deg, 45, "degrees, above 0, at most 45"},
        Field{"stride_sigma", own.stride_sigma, 1, "a fraction above 0, at most 1"}}) {
    if (f.value == 0 || f.value > f.most)
      return fail(FaultCode::bad_input,
                  fmt::format("{}: expected {}, got {}", f.name, f.expected, f.value));
  }
  return errors_of(party);
}

}  // namespace lodeway::reckoning
