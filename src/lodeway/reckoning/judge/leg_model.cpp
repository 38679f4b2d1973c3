#include "lodeway/reckoning/judge/leg_model.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/result/overloaded.hpp"

namespace lodeway::reckoning {

using result::overloaded;

namespace {
WalkedPart share_of(const walking::Figures& figures, double map_m, double straight_m) {
  const double share = map_m / straight_m;
  return {map_m, share * figures.length_m, share * figures.double_paces, share * figures.minutes};
}
}  // namespace

Walked walked(const walking::Leg& leg, const Approach& way) {
  const auto& figures = leg.figures;
  Walked out{{}, {}, figures.length_m, figures.minutes, figures.minutes_slow};
  if (on_needle(way.end) == nullptr) return out;
  const double straight = earth::grid_distance_m(way.from, way.to);
  out.needle = share_of(figures, way.length_m, straight);
  const AtLine* aimed = aimed_off(way.end);
  if (aimed == nullptr) return out;
  out.after = share_of(figures, std::abs(aimed->offset_m), straight);
  out.length_m = out.needle->length_m + out.after->length_m;
  out.minutes = out.needle->minutes + out.after->minutes;
  out.minutes_slow =
      figures.minutes_slow * (out.needle->map_m + out.after->map_m) / straight;
  return out;
}

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
