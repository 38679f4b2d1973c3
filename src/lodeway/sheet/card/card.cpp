#include "lodeway/sheet/card/card.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/sheet/card/card_sides.hpp"
#include "lodeway/sheet/draw/verdict_band.hpp"
#include "lodeway/sheet/map/cover.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/not_to_walk.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/verdict_words.hpp"

namespace lodeway::sheet {

namespace {

using Leg = trip::PlannedLeg;
using walking::LegKind;

constexpr double roomy_row_mm = 21;  // lower rows have a smaller bearing
constexpr double least_head = 0.6;   // the letters of a side's head grow no smaller
constexpr double place_rule_mm = 1.0;
// The day's bar and how to read the card head the first side only.
constexpr double brief_head_h = 11;

class Card {
 public:
  Card(const trip::Plan& plan, const TextMeasure& measure, CardStyle style)
      : plan_(plan),
        measure_(measure),
        large_(style.large_type),
        k_(style.large_type ? 1.45 : 1.0),
        parted_(parted_card(plan, measure, style.large_type)) {}

  std::vector<Drawing> draw() {
    std::vector<Drawing> out;
    for (std::size_t s = 0; s < parted_.sides.size(); ++s) out.push_back(side(s));
    return out;
  }

 private:
  [[nodiscard]] units::Language language() const { return plan_.trip.language; }

  Drawing side(std::size_t s) {
    const auto& what = parted_.sides[s];
    Page page(card::page_w, card::page_h, plan_.trip.name, measure_);
    head(page, s);
    if (s == 0)
      draw_verdict_band(page, plan_, {card::edge, card::first_leg_y - 0.2},
                        card::right - card::edge, card::fold, parted_.band_h);
    const double top = first_leg_y(parted_, s);
    double y = top;
    for (auto i = what.begin; i < what.end; ++i) {
      row_ = what.heights[i - what.begin];
      // The day's places part it: what leads to one of them stands between two thick rules.
      if (i > what.begin)
        page.stroke({{card::edge, y}, {card::right, y}},
                    {ink::night, parted_.told == Told::briefly && parted_.ends_place[i - 1] != 0 ? place_rule_mm
                                                                                   : 0.3});
      do_half(page, i, y);
      // The danger frame's lower rim stays free of words.
      const double rim = dangers_on(i).empty() ? 0 : card::rim_mm;
      draw_see(page, plan_, i, y, row_ - rim, see_style(large_, parted_));
      y += row_;
    }
    double frame = top;
    for (auto i = what.begin; i < what.end; ++i) {
      const double h = what.heights[i - what.begin];
      if (!dangers_on(i).empty())
        danger_frame(page, card::edge - 1.2, frame + 0.3, card::right - card::edge + 2.4, h - 0.6);
      frame += h;
    }
    page.stroke({{card::fold, 4}, {card::fold, card::page_h - 4}}, {ink::rule, 0.15, {1.2, 1.2}});
    const bool turns_here = turns_round_on(plan_, what.begin, what.end);
    const double below = turns_here ? card::foot_y + 1.5 : card::page_h - 5;
    if (what.last && parted_.help_here) draw_help(page, plan_, y + 1, below, parted_.told);
    if (turns_here) draw_turn_rule(page, plan_, card::foot_y + 1.5);
    return page.take();
  }

  void head(Page& page, std::size_t s) {
    const auto& what = parted_.sides[s];
    const auto& trip = plan_.trip;
    double room = card::left_end - card::edge;
    if (what.end > what.begin) {
      std::vector<std::size_t> legs;
      for (auto i = what.begin; i < what.end; ++i) legs.push_back(i);
      const auto words = legs_text(legs, language());
      room -= 4 + page.fitted(words + places_on(page, what, words, 0.66 * room),
                              {card::left_end, 8.4}, 0.66 * room, card_words(9.5, true),
                              Anchor::right, least_head);
    }
    const auto mark = trip::not_to_walk_mark(plan_);
    page.fitted(mark.empty() ? trip.name : mark + ": " + trip.name, {card::edge, 8.4}, room,
                card_words(13, true), Anchor::left, 0.6);
    page.text(say(Say::what_you_see, language()), {card::see_x, 8.4}, card_words(13, true));
    page.text(say(Say::side_of, language(), {std::to_string(s + 1), std::to_string(parted_.sides.size())}),
              {card::right, 8.4}, card_words(8), Anchor::right);
    const bool briefly = parted_.told == Told::briefly;
    const double rule_y = briefly && s > 0 ? brief_head_h : card::head_h;
    page.stroke({{card::edge, rule_y}, {card::right, rule_y}}, {ink::night, 0.3});
    if (briefly && s > 0) return;
    draw_day_bar(page, plan_, {card::edge + 8, 13.0}, card::left_end - card::edge - 8);
    page.paragraph(say(Say::card_head, language(),
                       {date_text(trip.date, language()), std::to_string(trip.request.party.size),
                        millimetre_text(trip.map_scale, trip.lengths)}) +
                       (briefly
                            ? " " + (parted_.help_here
                                         ? trip::told(language(), "Escape routes: on the escape card.")
                                         : trip::told(language(), "Escape routes, help: on their cards."))
                            : std::string()),
                   {card::see_x, briefly ? 12.6 : 13.0}, card::right - card::see_x, card_words(7.8),
                   briefly ? 3.3 : 3.5, briefly ? 3 : 2);
  }

  /// ": Quenna Hause, Harrik Pike": the day's places on a side behind its legs, all of them or the last
  /// one, as there is room.
  [[nodiscard]] std::string places_on(const Page& page, const CardSide& on, const std::string& legs,
                                      double room) const {
    std::string all, last;
    if (parted_.told == Told::all) return all;
    for (auto i = on.begin; i < on.end; ++i) {
      if (parted_.ends_place[i] == 0) continue;
      last = plan_.way.legs[i].course.to;
      all += (all.empty() ? ": " : ", ") + last;
    }
    for (const auto& places : {all, last.empty() ? last : ": " + last}) {
      if (least_head * page.width(legs + places, card_words(9.5, true)) <= room) return places;
    }
    return {};
  }

  /// What makes leg i one to keep off, in words; empty: nothing does.
  [[nodiscard]] std::vector<std::string> dangers_on(std::size_t i) const {
    return leg_dangers(plan_, i);
  }

  void do_half(Page& page, std::size_t i, double y) {
    const Leg& l = plan_.way.legs[i];
    page.box(card::edge, y + 0.4, 9, row_ - 0.8, ink::night);
    page.text(
        std::to_string(i + 1), {card::edge + 4.5, y + 0.5 * row_ + 2.6},
        {Face::figures_bold, (i < 99 ? 19.0 : 11.0) * mm_per_point * std::min(k_, 1.1), ink::paper},
        Anchor::middle);
    const auto dangers = dangers_on(i);
    const double above = dangers.empty() ? row_ : row_ - 5;  // the danger stands below it
    const double x = card::danger_x, middle = y + 0.5 * above + 3.6 * std::min(k_, 1.3);
    // The words below the figures stand clear of how it is walked, on a low row too.
    const double base = l.needle || large_ ? middle : std::min(middle, y + above - 5.7);
    where_to(page, i, x, y + 4.6 * std::min(k_, 1.2) + (dangers.empty() ? 0 : 0.8));
    const double column = x + (large_ ? 36 : 27);
    needle_or_rails(page, l, {x, base}, column - x - 1.5, above);
    if (!l.needle) sets_out(page, l, {x, base + 1.9}, column - x - 1.5);
    figures(page, i, column, base, middle);
    if (dangers.empty()) {
      how(page, i, x, y + row_ - 1.1);
      return;
    }
    how(page, i, x, y + row_ - 6.0);
    page.fitted(dangers.front(), {x, y + row_ - 2.6}, card::left_end - x, danger_type(k_),
                Anchor::left, least_danger);
    // The number's block is half hatched: in grey the only row like it.
    std::vector<std::vector<Mm>> hatch;
    const double half = y + 0.62 * row_, end = y + row_ - 0.8;
    page.box(card::edge, half, 9, end - half, ink::paper);
    for (double at = half; at < end; at += 1.5)
      hatch.push_back({{card::edge, at}, {card::edge + 9, at}});
    page.strokes(std::move(hatch), {ink::night, 0.6});
  }

  /// From, to, and the reference of the end.
  void where_to(Page& page, std::size_t i, double x, double y) {
    const Leg& l = plan_.way.legs[i];
    const double ref_w = page.text(plan_.way.legs[i].reference, {card::left_end, y},
                                   card_figures(11 * std::min(k_, 1.2)), Anchor::right);
    const double room = card::left_end - x - ref_w - 3;
    const auto from_type = card_words(7.8 * std::min(k_, 1.2)),
               to_type = card_words(10.6 * std::min(k_, 1.2), true);
    const double arrow = 5.2;
    // The end is what counts: the start gives way first.
    const double to_w = std::min(page.width(l.course.to, to_type), room - arrow - 1),
                 from_w = room - arrow - to_w;
    double at = x;
    // The end before says it too: rather none than a piece of a name.
    if (constexpr double least = 0.62; least * page.width(l.course.from, from_type) <= from_w)
      at += page.fitted(l.course.from, {x, y}, from_w, from_type, Anchor::left, least) + 1;
    page.stroke({{at, y - 1.1}, {at + 3, y - 1.1}}, {ink::night, 0.45});
    page.fill({{{at + 3.8, y - 1.1}, {at + 2.4, y - 2.0}, {at + 2.4, y - 0.2}}}, ink::night);
    page.fitted(l.course.to, {at + arrow, y}, card::left_end - ref_w - 3 - at - arrow, to_type,
                Anchor::left, 0.5);
  }

  /// `high`: what of the row's height it shares with where the leg goes.
  void needle_or_rails(Page& page, const Leg& l, Mm base, double room, double high) {
    const double k = std::min(k_, 1.3) * (large_ ? 1 : std::min(1.0, high / roomy_row_mm));
    if (l.needle) {
      const bool mils = plan_.trip.angles == trip::AngleUnit::mils;
      const auto big = card_figures((mils ? 24 : 31) * k);
      const auto words = bearing_text(l.needle->magnetic, plan_.trip.angles);
      const double w = page.text(words, base, big);
      page.text(mils ? "mil" : "°", {base.x + w + 0.2, base.y - (mils ? 0 : 0.42 * big.size_mm)},
                card_figures((mils ? 6.5 : 13) * k));
      return;
    }
    const double h = 7.5 * k;
    for (const double dx : {0.0, 5.0}) page.box(base.x + dx, base.y - h, 0.9, h, ink::night);
    page.stroke({{base.x + 2.95, base.y - h}, {base.x + 2.95, base.y}},
                {ink::night, 0.5, {1.4, 0.8}});
    const auto words = landmarks::thing(l.course.followed.kind, "", language());
    const auto type = card_words(14.5 * k, true);
    const double wide = room - 7.5, x = base.x + 7.5;
    if (0.62 * page.width(words, type) <= wide) {
      page.fitted(words, {x, base.y - 1.2}, wide, type, Anchor::left, 0.6);
      return;
    }
    // In two lines before it is made too small to read.
    auto small = card_words(9.4 * k, true);
    while (small.size_mm > 1.6 &&
           (page.lines_needed(words, wide, small) > 2 || page.longest_word(words, small) > wide))
      small.size_mm *= 0.95;
    page.paragraph(words, {x, base.y - 4.2 * k}, wide, small, 1.15 * small.size_mm, 2);
  }

  /// A line is not a direction: the needle over its first 100 m, small, for it is not walked on.
  void sets_out(Page& page, const Leg& l, Mm at, double room) {
    const double w = page.fitted(say(Say::sets_out, language()), at, 0.5 * room, card_words(6.8),
                                 Anchor::left, 0.6);
    page.fitted(
        bearing_text(l.first_magnetic_bearing, plan_.trip.angles) + bearing_sign(plan_.trip.angles),
        {at.x + w + 1, at.y}, room - w - 1, card_figures(8.4), Anchor::left, 0.6);
  }

  /// `middle`: where the stack of small figures is held to.
  void figures(Page& page, std::size_t i, double column, double base, double middle) {
    const Leg& l = plan_.way.legs[i];
    const auto& t = plan_.schedule.legs[i];
    const double k = large_ ? 1.2 : 1.0;
    const auto value = card_figures(14 * k), label = card_words(6.8);
    const double min_x = column + 15.5 * k, clock_x = column + 25.5 * k,
                 stack_x = large_ ? card::left_end : clock_x + 18;
    const auto cell = [&](double x, double end, const std::string& figure,
                          const std::string& name) {
      page.fitted(figure, {x, base - 1.2}, end - x - 1, value, Anchor::left, 0.6);
      page.fitted(name, {x, base + 1.9}, end - x - 0.8, label, Anchor::left, 0.6);
    };
    cell(column, min_x, fmt::format("{:.0f}", l.counted.double_paces),
         say(Say::double_paces, language()));
    cell(min_x, clock_x, fmt::format("{:.0f}", l.counted.minutes),
         say(Say::minutes_short, language()));
    page.fitted(clock_text(t.arrive, plan_.daylight), {clock_x, base - 1.2}, stack_x - clock_x - 1,
                value, Anchor::left, 0.6);
    const double rw = page.text(say(Say::real, language()), {clock_x, base + 1.9}, label);
    page.stroke({{clock_x + 1 + rw, base + 1.9}, {stack_x - 1.5, base + 1.9}}, {ink::stone, 0.2});
    // What is measured on the map and felt in the legs: a stack of small figures.
    const Type small{Face::figures, (large_ ? 8.4 : 7.4) * mm_per_point, ink::text};
    const auto length = length_text(l.counted.length_m, plan_.trip.lengths);
    const auto mm = fmt::format("{:.0f} mm", l.counted.map_mm);
    // On low rows the stack begins under the reference.
    const bool calm = dangers_on(i).empty();
    double x = large_ ? card::edge + 11.5 : stack_x,
           y = large_ ? middle + 6.6
                      : std::max(calm ? middle - 6.8 : middle - 5.4, middle - 0.5 * row_ + 3.8);
    // clear of the words below
    const double leading = calm && row_ >= roomy_row_mm ? 2.85 : 2.55;
    const auto put = [&](const std::string& words, int way) {
      const double w = small_figure(page, words, way, {x, y}, card::left_end, small);
      large_ ? x += w + 3 : y += leading;
    };
    put(length, 0);
    put(mm, 0);
    if (heights_below(i)) return;
    if (l.figures.climb_m >= 5) put(height_text(l.figures.climb_m, plan_.trip.lengths), 1);
    if (l.figures.descent_m >= 5) put(height_text(l.figures.descent_m, plan_.trip.lengths), -1);
  }

  /// Up and down stand beside how it is walked where four small figures would make the row higher.
  [[nodiscard]] bool heights_below(std::size_t i) const {
    const auto& f = plan_.way.legs[i].figures;
    return parted_.told == Told::briefly && f.climb_m >= 5 && f.descent_m >= 5 && parted_.heights_beside[i] != 0;
  }

  /// A small figure with a mark: metres up (1), down (-1), none (0). Answers its width.
  static double small_figure(Page& page, const std::string& words, int way, Mm at, double end,
                             const Type& small) {
    double w = 0;
    if (way != 0) {
      const double top = at.y - 2.0;
      const std::vector<Mm> up{{at.x, at.y}, {at.x + 1.1, top}, {at.x + 2.2, at.y}},
          down{{at.x, top}, {at.x + 1.1, at.y}, {at.x + 2.2, top}};
      if (way > 0) page.fill({up}, ink::night);
      if (way < 0) page.stroke(down, {ink::night, 0.3}, true);
      w = 3;
    }
    return w + page.fitted(words, {at.x + w, at.y}, end - at.x - w, small, Anchor::left, 0.6);
  }

  /// How, the side in bold.
  void how(Page& page, std::size_t i, double x, double y) {
    const Leg& l = plan_.way.legs[i];
    double end = card::left_end;
    if (heights_below(i)) {
      const Type small{Face::figures, 7.4 * mm_per_point, ink::text};
      const auto put = [&](double metres, int way) {
        const auto words = height_text(metres, plan_.trip.lengths);
        const double at = end - page.width(words, small) - 3;
        small_figure(page, words, way, {at, y}, end, small);
        end = at - 1.5;
      };
      put(l.figures.descent_m, -1);
      put(l.figures.climb_m, 1);
    }
    const double room = end - x, points = 8.6 * std::min(k_, 1.2);
    const auto words = how_to(l, plan_);
    const auto plain = card_words(points), strong = card_words(points, true);
    const double w = page.width(words.how, plain) + 1.2 + page.width(words.side, strong);
    const double shrink = std::min(1.0, room / w);
    double at = x;
    if (!words.how.empty() && !words.side_first)
      at += page.fitted(words.how, {at, y}, room, card_words(points * shrink)) + 1.2 * shrink;
    if (!words.side.empty())
      at += page.fitted(words.side, {at, y}, room - (at - x), card_words(points * shrink, true)) +
            1.2 * shrink;
    if (words.side_first)
      page.fitted(words.how, {at, y}, room - (at - x), card_words(points * shrink));
  }

  const trip::Plan& plan_;
  const TextMeasure& measure_;
  bool large_;
  double k_, row_ = 0;
  CardSides parted_;
};

}  // namespace

std::vector<Drawing> draw_card(const trip::Plan& plan, const TextMeasure& measure,
                               CardStyle style) {
  return Card(plan, measure, style).draw();
}

}  // namespace lodeway::sheet
