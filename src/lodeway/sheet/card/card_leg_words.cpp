/// What the card says of a leg in words.
#include <algorithm>

#include <fmt/format.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/verdict_words.hpp"

namespace lodeway::sheet {

using Leg = trip::PlannedLeg;
using walking::LegKind;

Type danger_type(double k) { return card_words(8.4 * std::min(k, 1.2), true); }

bool whole_on_left(const Page& page, const std::string& danger, double k) {
  return least_danger * page.width(danger, danger_type(k)) <= card::left_end - card::danger_x;
}

std::vector<std::string> leg_dangers(const trip::Plan& plan, std::size_t leg) {
  std::vector<std::string> out;
  for (const auto& reason : plan.verdict.reasons) {
    if (reason.leg == static_cast<int>(leg) && reason.band == trip::Band::outside)
      out.push_back(trip::leg_reason_words(reason, plan.trip.language));
  }
  return out;
}

std::string leg_strays(const trip::Plan& plan, std::size_t leg) {
  const double harmed = plan.way.legs[leg].judged.hazard_probability;
  const bool told = std::ranges::any_of(plan.verdict.reasons, [&](const trip::Reason& r) {
    return r.leg == static_cast<int>(leg) && r.what == trip::Fails::keep_off;
  });
  if (harmed < trip::told_harm || told) return {};
  return say(Say::escape_strays, plan.trip.language, {trip::harmed_of_hundred(harmed)});
}

int stones_of(double certainty) {
  return certainty >= 0.98   ? 4
         : certainty >= 0.95 ? 3
         : certainty >= 0.90 ? 2
         : certainty >= 0.75 ? 1
                             : 0;
}

HowTo how_to(const Leg& leg, const trip::Plan& plan) {
  const auto language = plan.trip.language;
  if (leg.course.kind == LegKind::along) {
    auto along = say(Say::along_the, language, {leg.course.followed.name});
    const auto& beside = leg.remark;
    if (!beside.empty()) along += ",";
    return {along, beside, false};
  }
  // The way's own end is no turn.
  if (turn_without_fix(leg) && !plan.way.legs.empty() &&
      leg.course.line.back() == plan.way.legs.back().course.line.back())
    return {trip::told(language, "Nothing to see at the end: count, stop, look round."), "", false};
  if (turn_without_fix(leg))
    return {say(Say::count_stop_turn, language), say(Say::dog_leg, language), true};
  if (!leg.after) return {say(Say::straight, language), "", false};
  const bool left = leg.after->aimed_to == mapdata::Side::left;
  return {say(Say::then_turn, language,
              {leg.after->line, say(left ? Say::right : Say::left, language),
               length_text(leg.after->length_m, plan.trip.lengths),
               fmt::format("{:.0f}", leg.after->double_paces),
               fmt::format("{:.0f}", leg.after->minutes)}),
          say(left ? Say::aim_off_left : Say::aim_off_right, language), true};
}

std::string in_words(const HowTo& h) {
  if (h.side.empty()) return h.how;
  return h.side_first ? h.side + " " + h.how : h.how + " " + h.side;
}

std::string stop_words(const Leg& leg, const trip::Plan& plan) {
  const auto language = plan.trip.language;
  if (!leg.stop) return say(Say::nothing_stops, language);
  if (leg.stop->beyond_m < 1) return leg.stop->what;
  return leg.stop->what + " " +
         say(Say::beyond, language, {length_text(leg.stop->beyond_m, plan.trip.lengths)});
}

std::string way_off_words(const Leg& leg, const trip::Plan& plan) {
  if (leg.escape)
    return fmt::format("{}, {:.0f} min", trip::escape_words(*leg.escape, plan.trip),
                       leg.escape->minutes);
  const bool on_road =
      leg.course.kind == walking::LegKind::along && leg.course.followed.kind == mapdata::Kind::road;
  return say(on_road ? Say::escape_on_road : Say::escape_none, plan.trip.language);
}

std::string signal_words(const trip::Plan& plan) {
  return say(
      plan.trip.signals == trip::SignalRegion::alpine ? Say::signal_alpine : Say::signal_america,
      plan.trip.language);
}

}  // namespace lodeway::sheet
