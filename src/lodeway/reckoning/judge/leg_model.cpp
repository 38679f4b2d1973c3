#include "lodeway/reckoning/judge/leg_model.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/result/overloaded.hpp"

namespace lodeway::reckoning {

using result::overloaded;

const OnNeedle* on_needle(const End& end) {
  return std::visit(overloaded{[](const OnNeedle& e) { return &e; },
                               [](const ByHandrail&) -> const OnNeedle* { return nullptr; }},
                    end);
}

const Mark* mark_of(const End& end) {
  const auto if_any = [](const std::optional<Mark>& mark) { return mark ? &*mark : nullptr; };
  return std::visit(
      overloaded{[](const OnNeedle&) -> const Mark* { return nullptr; },
                 [](const AtMark& e) { return &e.mark; },
                 [&](const AtLine& e) { return if_any(e.mark); },
                 [&](const ByHandrail& e) { return if_any(e.mark); }},
      end);
}

double beyond_m(const End& end) {
  return std::visit(overloaded{[](const OnNeedle&) { return 0.0; },
                               [](const AtMark& e) { return e.beyond_m; },
                               [](const AtLine& e) { return e.beyond_m; },
                               [](const ByHandrail& e) { return e.beyond_m; }},
                    end);
}

bool nothing_to_see(const End& end) {
  return std::holds_alternative<AtTurn>(end) || std::holds_alternative<AtNothing>(end);
}

bool is_fix(const End& end) {
  const auto* handrail = std::get_if<ByHandrail>(&end);
  return handrail != nullptr ? handrail->mark.has_value() : !nothing_to_see(end);
}

const AtLine* aimed_off(const End& end) {
  const auto* line = std::get_if<AtLine>(&end);
  return line != nullptr && line->offset_m != 0 ? line : nullptr;
}

double search_m(const AtLine& end, const Habits& habits) {
  return std::abs(end.offset_m) + habits.wrong_way_sigmas * end.line_sigma_m;
}

bool goes_on_to_stop(const walking::Leg& leg, const Approach& way) {
  return leg.stop && leg.stop->beyond_m < std::max(way.length_m, 500.0);
}

}  // namespace lodeway::reckoning
