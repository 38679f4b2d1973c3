#include "lodeway/tasks/pick_way.hpp"

#include <algorithm>
#include <cassert>
#include <utility>
#include <vector>

#include "lodeway/trip/told.hpp"
#include "lodeway/units/hundredths_up.hpp"

namespace lodeway::tasks {

namespace {

/// 0: within the limit; else what is printed.
int over(const NamedHarm& way, double most) {
  return way.keep_off > most ? units::hundredths_up(way.keep_off) : 0;
}

}  // namespace

PickedWay pick_way(std::span<const NamedHarm> ways, walking::Choice asked, double most_keep_off,
                   units::Language language) {
  assert(!ways.empty());
  const auto found = std::ranges::find_if(ways, [&](const auto& w) { return w.choice >= asked; });
  const auto first =
      found == ways.end() ? ways.size() - 1 : static_cast<std::size_t>(found - ways.begin());
  std::size_t best = first;
  const auto harm = [&](std::size_t i) {
    return std::pair(over(ways[i], most_keep_off), ways[i].outside_else);
  };
  const auto try_next = [&](std::size_t i) {
    if (over(ways[first], most_keep_off) > 0 && harm(i) < harm(best)) best = i;
  };
  for (std::size_t i = first + 1; i < ways.size(); ++i) try_next(i);
  for (std::size_t i = first; i-- > 0;) try_next(i);
  if (best == first) return {best, {}};
  return {best, trip::told(language,
                           "Picked is the {} way, not the {} one. On the {} one {} in 100 stray "
                           "onto ground to keep off, over your limit of {}; on the {} one {}.",
                           {ways[best].name, ways[first].name, ways[first].name,
                            units::hundredths_up(ways[first].keep_off),
                            units::hundredths_up(most_keep_off), ways[best].name,
                            units::hundredths_up(ways[best].keep_off)})};
}

trip::Plan told_why(trip::Plan plan, const std::string& why) {
  if (why.empty()) return plan;
  const auto after_dangers = std::ranges::find_if(
      plan.warnings, [](const trip::Warning& w) { return w.severity < trip::Severity::danger; });
  plan.warnings.insert(after_dangers, {trip::Severity::caution, why, -1, trip::Reach::card});
  return plan;
}

}  // namespace lodeway::tasks
