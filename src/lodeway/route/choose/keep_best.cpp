#include "lodeway/route/choose/keep_best.hpp"

#include <algorithm>
#include <ranges>
#include <utility>

#include "lodeway/route/choose/way_parts.hpp"

namespace lodeway::route {

namespace {

/// Ascending seconds, descending loss.
void keep_front(std::vector<NamedWay>& ways, const BreachRules& rules) {
  std::ranges::stable_sort(ways, [](const NamedWay& a, const NamedWay& b) {
    const auto x = cost_of(a), y = cost_of(b);
    return std::pair(x.seconds, x.loss) < std::pair(y.seconds, y.loss);
  });
  std::vector<NamedWay> best;
  for (auto& way : ways) {
    if (best.empty() || cost_of(way).loss < cost_of(best.back()).loss)
      best.push_back(std::move(way));
  }
  ways.clear();
  for (auto& way : best | std::views::reverse) {  // the surest first: only what stays beats others
    const auto own = cost_of(way);
    const bool beaten = std::ranges::any_of(ways, [&](const NamedWay& other) {
      const auto cost = cost_of(other);
      return cost.loss < own.loss - rules.as_sure && (other.expected_min <= way.expected_min ||
                                                      cost.seconds <= rules.as_quick * own.seconds);
    });
    if (!beaten) ways.push_back(std::move(way));
  }
  std::ranges::reverse(ways);
}

}  // namespace

Missed missed_by(const reckoning::JudgedWay& way, const Wishes& wishes) {
  Missed out;
  for (const auto& leg : way.legs) {
    out.certainty =
        out.certainty || wishes.min_certainty - leg.judged.certainty > certainty_rounding;
    out.hazard =
        out.hazard || leg.judged.hazard_probability - wishes.most_hazard > hazard_rounding;
  }
  return out;
}

double breach_of(const reckoning::JudgedWay& way, const Wishes& wishes) {
  double all = 0;
  for (const auto& leg : way.legs) {
    const double under = wishes.min_certainty - leg.judged.certainty;
    const double over = leg.judged.hazard_probability - wishes.most_hazard;
    if (under > certainty_rounding) all += under;
    if (over > hazard_rounding) all += over;
  }
  return all;
}

bool keep_best(std::vector<NamedWay>& ways, std::optional<NamedWay> least_time,
               const Missed& missed, const Wishes& wishes, const BreachRules& rules) {
  constexpr double no_less = 0.01;
  const bool loosened = missed.any();
  const double longest =
      loosened && least_time ? rules.most_longer * least_time->expected_min : no_limit;
  const auto on_barred = [&](const NamedWay& way) { return missed_by(way.way, wishes).hazard; };
  if (loosened && !missed.hazard && !std::ranges::all_of(ways, on_barred)) {
    std::erase_if(ways, on_barred);
    if (least_time && on_barred(*least_time)) least_time.reset();
  }
  if (loosened && least_time) {
    const auto own = cost_of(*least_time);
    const double breach = breach_of(least_time->way, wishes);
    std::erase_if(ways, [&](const NamedWay& way) {
      const auto cost = cost_of(way);
      return cost.seconds >= own.seconds && cost.loss >= own.loss &&
             (breach_of(way.way, wishes) >= breach || way.expected_min > longest);
    });
  }
  // Who loses a leg pays in time, which counts already: half. Not for what is slower and less sure.
  const auto counted = [&](const NamedWay& way) {
    const double all = breach_of(way.way, wishes);
    if (!loosened || !least_time) return all;
    const auto cost = cost_of(way), own = cost_of(*least_time);
    if (cost.seconds > own.seconds && cost.loss > own.loss) return all;
    return 0.5 *
           (all + breach_of(way.way, {.min_certainty = 0, .most_hazard = wishes.most_hazard}));
  };
  if (least_time) ways.push_back(*least_time);
  double least = no_limit;
  for (const auto& way : ways) {
    if (way.expected_min <= longest) least = std::min(least, counted(way));
  }
  const double alike = std::max(rules.alike, rules.alike_share * least);
  const double more = least == 0 ? 0 : loosened ? alike : no_less;
  double least_gone = no_limit;  // loss of those that go
  std::erase_if(ways, [&](const NamedWay& way) {
    const bool goes = counted(way) > least + (way.expected_min <= longest ? more : 0);
    if (goes) least_gone = std::min(least_gone, cost_of(way).loss);
    return goes;
  });
  keep_front(ways, rules);
  return least_gone < cost_of(ways.back()).loss - rules.as_sure;
}

}  // namespace lodeway::route
