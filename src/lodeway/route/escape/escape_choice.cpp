#include "lodeway/route/escape/escape_choice.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

namespace lodeway::route {

namespace {

bool short_list(const EscapeCandidate& c) {
  return c.on_the_card || c.route.legs.size() <= most_escape_legs;
}

bool level(const EscapeCandidate& c) { return c.rise_m <= most_rise_m; }

/// Those that are so, or all where none is.
void keep(std::vector<EscapeCandidate>& all, auto is_so) {
  if (std::ranges::any_of(all, is_so))
    std::erase_if(all, [&](const EscapeCandidate& c) { return !is_so(c); });
}

reckoning::Escape least_by(std::vector<EscapeCandidate>& all, auto figures) {
  return std::move(std::ranges::min_element(all, {}, figures)->route);
}

}  // namespace

bool passes_all_rules(const EscapeCandidate& c, double most_hazard) {
  return c.route.hazard_probability <= most_hazard && !c.to_a_drop && !c.route.snow_slope &&
         short_list(c);
}

reckoning::Escape chosen_of(std::vector<EscapeCandidate> all, double most_hazard) {
  assert(!all.empty());
  // A route on which too many stray is none: it does not rule out one over a slope that snow slides
  // on, which is told.
  const auto within = [&](const EscapeCandidate& c) {
    return c.route.hazard_probability <= most_hazard;
  };
  if (std::ranges::none_of(all, within)) {
    keep(all, [](const EscapeCandidate& c) { return !c.route.snow_slope; });
    return least_by(all, [](const EscapeCandidate& c) {
      return std::pair(c.route.hazard_probability, c.route.minutes);
    });
  }
  keep(all, within);
  keep(all, [](const EscapeCandidate& c) { return !c.to_a_drop; });
  keep(all, [](const EscapeCandidate& c) { return !c.route.snow_slope; });
  keep(all, short_list);
  double quickest = all.front().route.minutes;
  for (const auto& c : all) quickest = std::min(quickest, c.route.minutes);
  keep(all, [&](const EscapeCandidate& c) { return c.route.minutes <= times_quickest * quickest; });
  // What makes a party leave, cloud, wind, lightning or an injury, is worse higher up.
  double surest = 0;
  for (const auto& c : all) surest = std::max(surest, c.route.certainty);
  keep(all, [&](const EscapeCandidate& c) {
    return level(c) && c.route.certainty >= surest - rise_worth;
  });
  return least_by(
      all, [](const EscapeCandidate& c) { return std::pair(-c.route.certainty, c.route.minutes); });
}

}  // namespace lodeway::route
