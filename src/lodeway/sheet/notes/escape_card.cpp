#include "lodeway/sheet/notes/escape_card.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/words.hpp"

namespace lodeway::sheet {

namespace {

constexpr std::size_t legs_a_side = 11;
constexpr double left = 8, right = 202, row_mm = 8.8, first_y = 20;
constexpr double minutes_x = 96, metres_x = 114, words_x = 118;

void draw_row(Page& page, const trip::Plan& plan, std::size_t i, double y) {
  const auto& leg = plan.way.legs[i];
  page.stroke({{left, y}, {right, y}}, {ink::rule, 0.2});
  page.box(left, y + 0.9, 8, 7, ink::night);
  page.fitted(std::to_string(i + 1), {left + 4, y + 5.9}, 7.4, {Face::figures_bold, 4, ink::paper},
              Anchor::middle);
  page.fitted(fmt::format("{} → {}", leg.course.from, leg.course.to), {left + 10, y + 4.4}, 64,
              card_words(9.2), Anchor::left, 0.55);
  page.fitted(fmt::format("→ {}", leg.full_reference), {left + 10, y + 7.7}, 64,
              {Face::figures, 2.3, ink::text}, Anchor::left, 0.6);
  if (!leg.escape) {
    page.fitted(way_off_words(leg, plan), {words_x, y + 5.8}, right - words_x, card_words(9),
                Anchor::left, 0.6);
    return;
  }
  page.text(fmt::format("{:.0f}", leg.escape->minutes), {minutes_x, y + 5.8},
            {Face::figures_bold, 4.4, ink::night}, Anchor::right);
  if (leg.escape->line.size() > 1) {
    page.text(length_text(mapdata::length_m(leg.escape->line), plan.trip.lengths),
              {metres_x, y + 5.8}, {Face::figures, 2.8, ink::text}, Anchor::right);
  }
  page.fitted(trip::escape_words(*leg.escape, plan.trip), {words_x, y + 5.8}, right - words_x,
              card_words(10, true), Anchor::left, 0.55);
}

}  // namespace

std::vector<Drawing> draw_escape_card(const trip::Plan& plan, const TextMeasure& measure) {
  const auto language = plan.trip.language;
  const std::size_t sides = (plan.way.legs.size() + legs_a_side - 1) / legs_a_side;
  std::vector<Drawing> out;
  for (std::size_t s = 0; s < sides; ++s) {
    Page page(card::page_w, card::page_h, plan.trip.name, measure);
    const auto& number = plan.trip.emergency_number;
    const double w = page.text(number.empty() ? "________" : number, {right, 12},
                               {Face::figures_bold, 6, ink::night}, Anchor::right);
    const double side_w =
        sides > 1
            ? page.text(say(Say::side_of, language, {std::to_string(s + 1), std::to_string(sides)}),
                        {right - w - 5, 12}, card_words(8), Anchor::right)
            : 0;
    page.fitted(fmt::format("{} · {}", say(Say::escape_title, language), plan.trip.name),
                {left, 12}, right - left - w - side_w - 12, card_words(14, true), Anchor::left,
                0.5);
    if (s == 0) {
      page.fitted(
          fmt::format("{}: {}", plan.way.legs.front().course.from, plan.start_full_reference),
          {left, first_y - 1.6}, 74, {Face::figures, 2.3, ink::text}, Anchor::left, 0.6);
    }
    page.text(say(Say::minutes_long, language), {minutes_x, first_y - 1.6}, card_words(7),
              Anchor::right);
    page.fitted(say(Say::set_out, language), {words_x, first_y - 1.6}, right - words_x,
                card_words(7));
    double y = first_y;
    const auto end = std::min(plan.way.legs.size(), (s + 1) * legs_a_side);
    for (std::size_t i = s * legs_a_side; i < end; ++i, y += row_mm) draw_row(page, plan, i, y);
    page.stroke({{left, y}, {right, y}}, {ink::rule, 0.2});
    y = page.paragraph(signal_words(plan), {left, std::max(y + 4.6, 122.0)}, right - left,
                       card_words(9, true), 4.1, 2);
    y = page.paragraph(
        std::string(say(Say::aircraft_arms, language)) + " " + say(Say::help_say, language),
        {left, y + 0.2}, right - left, card_words(8.2), 3.7, 2);
    page.paragraph(say(Say::escape_caution, language), {left, y + 0.2}, right - left, card_words(8),
                   3.6, 2);
    out.push_back(page.take());
  }
  return out;
}

}  // namespace lodeway::sheet
