#include "lodeway/reckoning/handrail.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "lodeway/reckoning/dead_reckoning.hpp"
#include "lodeway/reckoning/point_target.hpp"

namespace lodeway::reckoning {

double keeps_line(const mapdata::KindTraits& traits, mapdata::Visibility visibility, double length) {
  const double known = std::clamp(traits.recognised[static_cast<std::size_t>(visibility)], 0.0, 1.0);
  return std::pow(known, length / 1000);
}

double takes_right_branch(mapdata::Visibility visibility, double turn_deg) {
  constexpr std::array<double, mapdata::visibility_count> rate{0.02, 0.04, 0.06, 0.08};
  const double alike = 0.5 * (1 + std::cos(turn_deg * std::numbers::pi / 180));
  return 1 - rate[static_cast<std::size_t>(visibility)] * alike;
}

double handrail_sigma_m(const Errors& errors, double since) {
  return std::sqrt(single_leg_spread(errors, since).along_m2);
}

double stops_at_end(double along_sigma, double recognised, double tolerance) {
  return recognised + (1 - recognised) * passes_within(along_sigma, 0, tolerance);
}

}  // namespace lodeway::reckoning
