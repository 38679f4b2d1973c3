#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/home_times.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::sheet {

namespace {

double hours(trip::Clock c) { return static_cast<double>(c.count()) / 60; }

/// The day's hours along a bar `width` mm wide.
struct DayBar {
  double from, to;
  Mm at;
  double width;
  [[nodiscard]] double x(double hour) const {
    return at.x + std::clamp((hour - from) / (to - from), 0.0, 1.0) * width;
  }
};

/// Names above the bar: the start with its zone at the left, for no time is read without its zone;
/// then the turn and sunset near their hours, each clear of the one before it.
void draw_day_names(Page& page, const trip::Plan& plan, const DayBar& bar) {
  constexpr double gap = 1.5;
  const double end = bar.at.x + bar.width, first_x = bar.at.x - 8.5, y = bar.at.y - 1.0;
  const auto language = plan.trip.language;
  const auto named = [&](Say what, trip::Clock when) {
    return say(what, language) + std::string(" ") + clock_text(when, plan.daylight);
  };
  const auto shown = [&](const std::optional<trip::Clock>& when) {
    return when && hours(*when) >= bar.from && hours(*when) <= bar.to;
  };
  const auto turn = shown(plan.schedule.turn_round) ? named(Say::turn, *plan.schedule.turn_round)
                                                    : std::string();
  const Type plain = card_words(6.8), bold = card_words(6.8, true);
  const double turn_w = turn.empty() ? 0 : page.width(turn, bold) + gap;
  const auto start = say(Say::start, language) + std::string(" ") +
                     zoned(clock_text(plan.schedule.start, plan.daylight), plan.trip);
  // Its hour, where there is room; at the left before it is made small.
  double at = std::max(first_x, std::min(bar.x(hours(plan.schedule.start)) - 0.5 * page.width(start, plain),
                                         end - turn_w - page.width(start, plain)));
  double taken = at + page.fitted(start, {at, y}, end - turn_w - at, plain, Anchor::left, 0.6);
  if (!turn.empty()) {
    const double w = turn_w - gap;
    at = std::clamp(bar.x(hours(*plan.schedule.turn_round)) - 0.5 * w, taken + gap, end - w);
    taken = at + page.text(turn, {at, y}, bold);
  }
  if (!shown(plan.daylight.set)) return;
  // A long word for sunset leaves the clock alone; nothing where even that has no room.
  for (const auto& words :
       {named(Say::sunset, *plan.daylight.set), clock_text(*plan.daylight.set, plan.daylight)}) {
    const double w = page.width(words, plain);
    if (taken + gap + w > end) continue;
    page.text(words, {std::clamp(bar.x(hours(*plan.daylight.set)) - 0.5 * w, taken + gap, end - w), y},
              plain);
    return;
  }
}

}  // namespace

Type card_figures(double points) { return {Face::figures_bold, points * mm_per_point, ink::night}; }

Type card_words(double points, bool bold) {
  return {bold ? Face::words_bold : Face::words, points * mm_per_point, ink::text};
}

void draw_day_bar(Page& page, const trip::Plan& plan, Mm at, double width) {
  constexpr double high = 2.2;
  const auto& s = plan.schedule;
  const auto& d = plan.daylight;
  double from = hours(s.start), to = hours(s.end_slow.value_or(s.end));
  for (const auto& evening : {d.set, d.dusk, s.turn_round}) {
    if (evening) to = std::max(to, hours(*evening));
  }
  from = std::floor(from - 0.5);
  to = std::ceil(to + 0.3);
  const DayBar bar{from, to, at, width};
  const auto x = [&](double h) { return bar.x(h); };
  const auto dark = [&](double a, double b, bool twilight) {
    if (x(b) - x(a) < 0.05) return;
    if (!twilight) return page.box(x(a), at.y, x(b) - x(a), high, ink::night);
    std::vector<std::vector<Mm>> hatch;
    for (double u = x(a); u < x(b); u += 0.6)
      hatch.push_back({{u, at.y + high}, {std::min(u + 0.6, x(b)), at.y}});
    page.strokes(std::move(hatch), {ink::night, 0.15});
  };
  page.box(at.x, at.y, width, high, ink::paper);
  if (d.dusk) dark(hours(*d.dusk), to, false);
  if (d.set && d.dusk) dark(hours(*d.set), hours(*d.dusk), true);
  if (d.dawn) dark(from, hours(*d.dawn), false);
  if (d.dawn && d.rise) dark(hours(*d.dawn), hours(*d.rise), true);
  page.frame(at.x, at.y, width, high, {ink::night, 0.25});
  for (const auto& t : s.legs)
    page.box(x(hours(t.leave)), at.y + 0.6, x(hours(t.arrive)) - x(hours(t.leave)), 1.0,
             ink::night);
  page.stroke({{x(hours(s.end)), at.y + 1.1}, {x(hours(s.end_slow.value_or(s.end))), at.y + 1.1}},
              {ink::night, 0.3});
  const int every = to - from > 30 ? 6 : to - from > 18 ? 2 : 1;  // a long day has long hours
  for (double h = from + 1; h < to; h += every) {
    page.text(fmt::format("{:.0f}", std::fmod(h + 48, 24)), {x(h), at.y + 4.8},
              {Face::figures, 2.1, ink::text}, Anchor::middle);
  }
  if (s.turn_round) page.box(x(hours(*s.turn_round)) - 0.35, at.y - 0.6, 0.7, 3.4, ink::night);
  draw_day_names(page, plan, bar);
}

void draw_turn_rule(Page& page, const trip::Plan& plan, double y) {
  const auto& s = plan.schedule;
  const auto language = plan.trip.language;
  const auto& at = plan.way.legs[static_cast<std::size_t>(s.turn_round_leg)];
  page.frame(card::edge, y, card::page_w - 2 * card::edge, 10, {ink::night, 0.6});
  const auto clock = clock_text(*s.turn_round, plan.daylight);
  const double clock_w = page.width(clock, card_figures(15));
  const double room = card::fold - 3 - (card::edge + 3) - clock_w - 2;
  const double w = page.fitted(
      say(Say::turn_round, language, {at.course.to, std::to_string(s.turn_round_leg + 1)}),
      {card::edge + 3, y + 6.6}, room, card_words(10, true), Anchor::left, 0.5);
  page.text(clock, {card::edge + 5 + w, y + 6.8}, card_figures(15));
  const auto there = *s.turn_round + trip::Clock{std::lround(s.turn_round_back_min)};
  auto back = say(Say::turn_back, language,
                  {hours_text(s.turn_round_back_min), plan.way.legs.front().course.from,
                   clock_text(there, plan.daylight)});
  if (plan.daylight.set && there <= *plan.daylight.set)
    back += say(Say::before_sunset, language, {clock_text(*plan.daylight.set, plan.daylight)});
  const double wide = card::right - card::see_x - 3;
  if (page.width(back, card_words(8.5)) <= wide) {
    page.text(back, {card::see_x, y + 6.6}, card_words(8.5));
    return;
  }
  auto type = card_words(8.2);
  while (type.size_mm > 1.6 && page.lines_needed(back, wide, type) > 2) type.size_mm *= 0.96;
  page.paragraph(back, {card::see_x, y + 4.4}, wide, type, 3.5, 2);
}

void draw_help(Page& page, const trip::Plan& plan, double y, double below, Told told) {
  const auto language = plan.trip.language;
  page.stroke({{card::edge, y}, {card::right, y}}, {ink::night, 0.3});
  double line = y + 5;
  const double width = card::left_end - card::edge - 1;
  page.fitted(say(Say::lost_title, language), {card::edge, line}, width, card_words(9.6, true));
  const double gap = std::min(4.6, (below - line - 2) / 5.2);
  const bool known = std::ranges::any_of(plan.way.legs, [](const auto& leg) { return leg.escape.has_value(); });
  const auto where = !known                  ? trip::told(language, "none is known")
                     : told == Told::briefly ? trip::told(language, "on its own card")
                                             : trip::told(language, "beside the leg");
  for (const auto what : {Say::lost_1, Say::lost_2, Say::lost_3, Say::lost_4})
    page.fitted(say(what, language, {where}), {card::edge + 1, line += gap}, width, card_words(8),
                Anchor::left, 0.6);
  page.fitted(trip::end_words(plan),
              {card::edge, line += gap}, width, card_words(8, true), Anchor::left, 0.6);
  const double x = card::see_x;
  line = y + 5.4;
  const double hw = page.text(say(Say::help, language), {x, line}, card_words(9.6, true));
  const auto& number = plan.trip.emergency_number;
  page.fitted(number.empty() ? "________" : number, {x + hw + 3, line}, 50 - hw, card_figures(15),
              Anchor::left, 0.5);
  line = page.paragraph(signal_words(plan), {x, line + 4.4}, 53, card_words(7.6), 3.3, 3);
  page.paragraph(say(Say::help_say, language), {x, line + 0.2}, 53, card_words(7.6), 3.3, 3);
  const double mx = card::right - 38;
  page.text(say(Say::marks, language), {mx, y + 5}, card_words(8.6, true));
  double my = y + 7.2;
  for (const auto& [stones, least] :
       {std::pair{4, 98}, std::pair{3, 95}, std::pair{2, 90}, std::pair{1, 75}}) {
    for (int k = 0; k < 4; ++k) {
      if (k < stones) page.box(mx + 2.3 * k, my, 1.9, 1.9, ink::night);
      page.frame(mx + 2.3 * k, my, 1.9, 1.9, {ink::night, 0.25});
    }
    page.fitted(say(Say::or_more, language, {std::to_string(least)}), {mx + 10.5, my + 1.7}, 27,
                card_words(7));
    my += 3.0;
  }
  page.stroke({{mx, my + 0.9}, {mx + 8.6, my + 0.9}}, {ink::night, 0.5, {1.2, 0.7}});
  page.fitted(say(Say::no_fix_mark, language), {mx + 10.5, my + 1.7}, 27, card_words(7));
}

}  // namespace lodeway::sheet
