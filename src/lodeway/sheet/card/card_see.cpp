#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/turn_words.hpp"

namespace lodeway::sheet {

namespace {

using Leg = trip::PlannedLeg;

constexpr double tick_w = 25.5, stones_w = 14, stones_h = 7.4;

struct Row {
  Say label;
  std::string text;
  bool bold = false, framed = false;
};

std::vector<Row> rows_of(const Leg& leg, const trip::Plan& plan, std::size_t index) {
  std::vector<Row> out;
  for (auto& danger : leg_dangers(plan, index))
    out.push_back({Say::keep_off, std::move(danger), true, true});
  if (!leg.fords.empty()) {
    auto words = trip::ford_words(leg.fords.front(), plan.trip);
    if (leg.fords.size() > 1)
      words += say(Say::fords_more, plan.trip.language, {std::to_string(leg.fords.size() - 1)});
    out.push_back({Say::ford, std::move(words)});
  }
  std::string forks;
  for (const auto& fork : trip::forks_told(leg, plan.trip, 2))
    forks += (forks.empty() ? "" : ". ") + fork;
  if (!forks.empty()) out.push_back({Say::at_forks, std::move(forks)});
  if (leg.at_end)
    out.push_back({Say::at_the_end, trip::fork_words(*leg.at_end, plan.trip), true, false});
  out.push_back({Say::stops_you, stop_words(leg, plan), true, false});
  for (const auto& danger : leg.dangers) out.push_back({Say::keep_off, danger.what, true, true});
  if (!leg.judged.if_lost.empty()) out.push_back({Say::if_lost, leg.judged.if_lost, false, false});
  out.push_back({Say::way_off, way_off_words(leg, plan)});
  return out;
}

constexpr double tick_words_w = tick_w - 1.2, tick_shrink = 0.75;

/// Long words of a tick stand in two lines of smaller letters.
bool in_two_lines(const Page& page, const walking::Tick& tick, double size) {
  return tick_shrink * page.width(tick.what, card_words(7.8 * size)) > tick_words_w;
}

/// Answers the baseline of the last line.
double draw_ticks(Page& page, const Leg& leg, const trip::Plan& plan, double y, double size) {
  const auto ticks = telling_ticks(leg);
  double last = y + 7.3 * size;
  for (std::size_t k = 0; k < ticks.size(); ++k) {
    const bool two = in_two_lines(page, ticks[k], size);
    const double gap = 2.5 * size;
    if (two) last = std::max(last, y + 7.3 * size + gap);
    const double x = card::see_x + tick_w * static_cast<double>(k);
    page.frame(x, y + 1.9, 2.1, 2.1, {ink::night, 0.3});
    const double w =
        page.fitted(length_text(ticks[k].at_m, plan.trip.lengths), {x + 3.2, y + 4.0}, tick_w - 12,
                    {Face::figures_bold, 2.9 * std::min(size, 1.1), ink::night});
    page.fitted(fmt::format("{:.0f} min", ticks[k].minutes), {x + 4.2 + w, y + 4.0},
                tick_w - 4.8 - w, card_words(7), Anchor::left, 0.5);
    if (two) {
      page.paragraph(ticks[k].what, {x, y + 7.1 * size}, tick_words_w,
                     card_words(7.8 * size * tick_shrink), gap, 2);
    } else {
      page.fitted(ticks[k].what, {x, y + 7.3 * size}, tick_words_w, card_words(7.8 * size),
                  Anchor::left, tick_shrink);
    }
  }
  return last;
}

}  // namespace

void draw_stone_row(Page& page, double certainty, double right, double top) {
  const int full = stones_of(certainty);
  for (int s = 0; s < 4; ++s) {
    const double x = right - 11.4 + 2.9 * s;
    if (s < full) page.box(x, top, 2.4, 2.4, ink::night);
    page.frame(x, top, 2.4, 2.4, {ink::night, 0.3});
  }
}

void draw_stones(Page& page, const Leg& leg, const trip::Plan& plan, double right, double y) {
  const auto language = plan.trip.language;
  const double top = y + 1.6;
  if (!leg.judged.fix_at_end) {
    page.stroke({{right - 11, top + 0.9}, {right, top + 0.9}}, {ink::night, 0.5, {1.3, 0.7}});
    page.fitted(say(Say::no_fix, language), {right, top + 5}, stones_w, card_words(7, true),
                Anchor::right, 0.6);
    return;
  }
  draw_stone_row(page, leg.judged.certainty, right, top);
  page.fitted(say(Say::certainty_of, language, {of_hundred(leg.judged.certainty)}),
              {right, top + 5.4}, stones_w, card_words(7, true), Anchor::right, 0.6);
}

void draw_see(Page& page, const trip::Plan& plan, std::size_t i, double y, double height,
              double k) {
  const Leg& leg = plan.way.legs[i];
  const auto language = plan.trip.language;
  draw_stones(page, leg, plan, card::right, y);
  const double ticks_end = draw_ticks(page, leg, plan, y, std::min(k, 1.25));

  const auto rows = rows_of(leg, plan, i);
  const double least = 0.62 * k;
  double size = k;
  // How a size would fill the room: the lines of each row, and where the last one stands.
  const auto fill = [&](double s, bool draw) {
    double line = leg.ticks.empty() ? y + 4.6 : ticks_end + 3.5;
    const double gap = 3.15 * s, label_w = 19.5 * std::min(s, 1.35);
    for (const auto& row : rows) {
      const auto type = card_words(8.2 * s, row.bold);
      // Beside the stones there is less room.
      const double end =
          line - gap < y + stones_h && leg.ticks.empty() ? card::right - stones_w : card::right;
      const double width = end - card::see_x - label_w;
      const int left = std::max(1, static_cast<int>((y + height - 0.9 - line) / gap) + 1);
      if (draw) {
        if (row.framed)
          page.frame(card::see_x - 0.8, line - 2.4 * s, label_w - 0.6, 3.0 * s, {ink::night, 0.3});
        page.fitted(say(row.label, language), {card::see_x, line}, label_w - 2,
                    card_words(7.6 * s, row.framed), Anchor::left, 0.6);
        line = page.paragraph(row.text, {card::see_x + label_w, line}, width, type, gap, left);
      } else {
        line += gap * page.lines_needed(row.text, width, type);
      }
    }
    return line - gap;
  };
  while (size > least && fill(size, false) > y + height - 0.9) size -= 0.03 * k;
  (void)fill(size, true);
}

}  // namespace lodeway::sheet
