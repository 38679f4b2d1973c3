#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/kept_told.hpp"
#include "lodeway/trip/told_ticks.hpp"
#include "lodeway/trip/turn_words.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::sheet {

namespace {

using Leg = trip::PlannedLeg;

constexpr double tick_w = 25.5, stones_w = 14, stones_h = 7.4;
constexpr std::size_t boxes_a_row = 3;

struct Row {
  Say label;
  std::string text;
  bool bold = false, framed = false;
};

/// In boxes, three a row. Told briefly, what cloud hides stands back where there are too many.
std::vector<walking::Tick> boxed(const Leg& leg, const SeeStyle& style) {
  const auto most = boxes_a_row * style.box_rows;
  if (style.told != Told::briefly || leg.ticks.size() <= most) return trip::spread_ticks(leg, most);
  Leg firm = leg;
  std::erase_if(firm.ticks, [](const walking::Tick& tick) { return tick.of_slope; });
  return trip::spread_ticks(firm, most);
}

std::vector<Row> rows_of(const Page& page, const trip::Plan& plan, std::size_t index,
                         const SeeStyle& style) {
  const Leg& leg = plan.way.legs[index];
  std::vector<Row> out;
  const bool briefly = style.told == Told::briefly;
  auto dangers = leg_dangers(plan, index);
  const auto in_danger_row = [said = dangers](const std::string& what) {
    return std::ranges::any_of(said, [&](const auto& s) { return s.find(what) != std::string::npos; });
  };
  if (briefly && !dangers.empty() && whole_on_left(page, dangers.front(), style.k))
    dangers.erase(dangers.begin());  // the left half has it
  for (auto& danger : dangers) out.push_back({Say::danger_row, std::move(danger), true, true});
  for (auto& warning : trip::told_on(plan, trip::Reach::card, static_cast<int>(index)))
    out.push_back({Say::danger_row, std::move(warning), true, true});
  if (auto strays = leg_strays(plan, index); !strays.empty())
    out.push_back({Say::keep_off, std::move(strays), true, true});
  for (const auto& danger : leg.dangers)
    if (!in_danger_row(danger.what)) out.push_back({Say::keep_off, danger.what, true, true});
  if (auto more = trip::more_ticks_words(leg, boxed(leg, style), plan.trip, briefly); !more.empty())
    out.push_back({Say::more_ticks, std::move(more)});
  if (!leg.fords.empty()) out.push_back({Say::ford, trip::fords_words(leg, plan.trip)});
  std::string forks;
  for (const auto& fork : trip::forks_told(leg, plan.trip, 2))
    forks += (forks.empty() ? "" : ". ") + fork;
  if (!forks.empty()) out.push_back({Say::at_forks, std::move(forks)});
  if (leg.at_end)
    out.push_back({Say::at_the_end, trip::fork_words(*leg.at_end, plan.trip), true, false});
  // Told briefly: who misses the end is told there what stops them, or that nothing does.
  if (!briefly || leg.judged.if_lost.empty() ||
      (leg.stop && leg.judged.if_lost.find(leg.stop->what) == std::string::npos))
    out.push_back({Say::stops_you, stop_words(leg, plan), true, false});
  if (!leg.judged.confusable.empty()) out.push_back({Say::taken_for, leg.judged.confusable});
  for (const auto& note : leg.notes) {
    if (note.about == trip::LegNote::About::taken_for)
      out.push_back({Say::taken_for, trip::like_words(note, plan.trip, plan.norths.at)});
    else
      out.push_back({Say::leg_note, trip::note_words(note, plan.trip, plan.norths.at)});
  }
  if (!leg.judged.if_lost.empty()) out.push_back({Say::if_lost, leg.judged.if_lost, false, false});
  if (!briefly) out.push_back({Say::way_off, way_off_words(leg, plan)});
  return out;
}

constexpr double tick_words_w = tick_w - 1.2, tick_shrink = 0.75;

/// Long words of a tick stand in two lines of smaller letters.
bool in_two_lines(const Page& page, const walking::Tick& tick, double size) {
  return tick_shrink * page.width(tick.what, card_words(7.8 * size)) > tick_words_w;
}

/// Answers the baseline of the last line.
double draw_ticks(Page& page, const Leg& leg, const trip::Plan& plan, double y, const SeeStyle& style) {
  const auto ticks = boxed(leg, style);
  const double size = std::min(style.k, 1.25), gap = 2.5 * size, words_at = 7.3 * size;
  double last = y + words_at;
  for (std::size_t k = 0; k < ticks.size(); ++k) {
    if (k > 0 && k % boxes_a_row == 0) {
      y = last + 0.9 * size - 1.2;
      last = y + words_at + 0.8 * size;  // clear of what follows
    }
    const bool two = in_two_lines(page, ticks[k], size);
    if (two) last = std::max(last, y + words_at + gap);
    const double x = card::see_x + tick_w * static_cast<double>(k % boxes_a_row);
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
      page.fitted(ticks[k].what, {x, y + words_at}, tick_words_w, card_words(7.8 * size),
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
  draw_stone_row(page, trip::kept_told(leg.judged), right, top);
  page.fitted(say(Say::certainty_of, language, {of_hundred(trip::kept_told(leg.judged))}),
              {right, top + 5.4}, stones_w, card_words(7, true), Anchor::right, 0.6);
}

namespace {

/// What the eye looks for on one leg, in a room of its own.
class See {
 public:
  See(Page& page, const trip::Plan& plan, std::size_t i, double y, double height,
      const SeeStyle& style)
      : page_(page),
        plan_(plan),
        leg_(plan.way.legs[i]),
        rows_(rows_of(page, plan, i, style)),
        y_(y),
        last_(y + height - 0.9) {}

  /// The lines at size `s`, under ticks that end at `ticks_end`; answers the last one's baseline.
  double lines(double s, double ticks_end, bool draw) {
    double line = leg_.ticks.empty() ? y_ + 4.6 : ticks_end + 3.5 * std::max(1.0, s);
    const double gap = 3.15 * s, label_w = 19.5 * std::min(s, 1.35);
    for (const auto& row : rows_) {
      const auto type = card_words(8.2 * s, row.bold);
      // Beside the stones there is less room.
      const double end =
          line - gap < y_ + stones_h && leg_.ticks.empty() ? card::right - stones_w : card::right;
      const double width = end - card::see_x - label_w;
      if (!draw) {
        line += gap * page_.lines_needed(row.text, width, type);
        continue;
      }
      const int left = std::max(1, static_cast<int>((last_ - line) / gap) + 1);
      if (row.framed)
        page_.frame(card::see_x - 0.8, line - 2.4 * s, label_w - 0.6, 3.0 * s, {ink::night, 0.3});
      page_.fitted(say(row.label, plan_.trip.language), {card::see_x, line}, label_w - 2,
                   card_words(7.6 * s, row.framed), Anchor::left, 0.6);
      line = page_.paragraph(row.text, {card::see_x + label_w, line}, width, type, gap, left);
    }
    return line - gap;
  }

  /// The largest letters, up to `most`, of which every line finds room; `least` where none do.
  double fitting(double most, double least, double ticks_end) {
    double size = most;
    while (size > least && lines(size, ticks_end, false) > last_) size -= 0.02 * most;
    return std::max(size, least);
  }

 private:
  Page& page_;
  const trip::Plan& plan_;
  const Leg& leg_;
  std::vector<Row> rows_;
  double y_, last_;
};

}  // namespace

double see_height(const trip::Plan& plan, std::size_t i, double size, const SeeStyle& style,
                  const TextMeasure& measure) {
  Page aside(card::page_w, card::page_h, "", measure);
  const double ticks_end = draw_ticks(aside, plan.way.legs[i], plan, 0, style);
  return See(aside, plan, i, 0, 0, style).lines(size * style.k, ticks_end, false) + 0.9;
}

void draw_see(Page& page, const trip::Plan& plan, std::size_t i, double y, double height,
              const SeeStyle& style) {
  draw_stones(page, plan.way.legs[i], plan, card::right, y);
  const double ticks_end = draw_ticks(page, plan.way.legs[i], plan, y, style);
  See see(page, plan, i, y, height, style);
  see.lines(see.fitting(style.k, smallest_see * style.k, ticks_end), ticks_end, true);
}

}  // namespace lodeway::sheet
