#include "lodeway/sheet/card.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/page.hpp"
#include "lodeway/sheet/wording.hpp"
#include "lodeway/trip/clock_text.hpp"

namespace lodeway::sheet {

namespace {

using walking::Leg;
using walking::LegKind;

// Millimetres of the A5 page.
constexpr double page_w = 210, page_h = 148, edge = 7, fold = 105, head_h = 21, foot_y = 132;
constexpr double first_leg_y = 23;

class Card {
 public:
  Card(const trip::Plan& plan, const TextMeasure& measure, CardStyle style)
      : plan_(plan),
        measure_(measure),
        legs_a_side_(style.large_type ? 3 : 5),
        k_(style.large_type ? 1.45 : 1.0),
        row_((foot_y - first_leg_y - 1) / legs_a_side_) {}

  std::vector<Drawing> draw() {
    part();
    std::vector<Drawing> out;
    for (std::size_t s = 0; s < sides_.size(); ++s) out.push_back(side(s));
    return out;
  }

 private:
  struct Side {
    std::size_t begin, end;
    bool last;
  };

  /// The last side keeps room for help: one leg's at least.
  void part() {
    const auto legs = plan_.way.legs.size(), a_side = static_cast<std::size_t>(legs_a_side_);
    for (std::size_t begin = 0; sides_.empty() || !sides_.back().last;) {
      const auto left = legs - begin;
      const bool last = left + 1 <= a_side;
      const auto take = last ? left : std::min(left, a_side);
      sides_.push_back({begin, begin + take, last});
      begin += take;
    }
  }

  [[nodiscard]] units::Language language() const { return plan_.trip.language; }
  [[nodiscard]] std::string length(double m) const { return length_text(m, plan_.trip.lengths); }
  [[nodiscard]] Type figures(double points) const {
    return {Face::figures_bold, points * mm_per_point, ink::night};
  }
  [[nodiscard]] Type words(double points, bool bold = false) const {
    return {bold ? Face::words_bold : Face::words, points * mm_per_point, ink::text};
  }

  Drawing side(std::size_t s) {
    const auto& what = sides_[s];
    Page page(page_w, page_h, plan_.trip.name, measure_);
    head(page, s);
    for (auto i = what.begin; i < what.end; ++i)
      leg(page, i, first_leg_y + row_ * static_cast<double>(i - what.begin));
    page.stroke({{fold, 4}, {fold, page_h - 4}}, {ink::rule, 0.15, {1.2, 1.2}});
    const int turn = plan_.schedule.turn_round_leg;
    const bool turns_here = plan_.schedule.turn_round && turn >= static_cast<int>(what.begin) &&
                            turn < static_cast<int>(what.end);
    double y = first_leg_y + row_ * static_cast<double>(what.end - what.begin) + 1;
    if (what.last) {
      help(page, y, turns_here);
    } else if (turns_here) {
      turn_rule(page, foot_y + 1.5);
    }
    return page.take();
  }

  void head(Page& page, std::size_t s) {
    const auto& what = sides_[s];
    const auto& trip = plan_.trip;
    const double right = fold - 4;
    if (what.end > what.begin) {
      page.text(say(Say::legs_from_to, language(),
                    {std::to_string(what.begin + 1), std::to_string(what.end)}),
                {right, 9}, words(9.5, true), Anchor::right);
    }
    page.fitted(trip.name, {edge, 9}, 60, words(13, true));
    day_bar(page, {edge + 8, 13.2}, right - edge - 8);
    page.text(say(Say::what_you_see, language()), {fold + 5, 9}, words(13, true));
    page.text(say(Say::side_of, language(), {std::to_string(s + 1), std::to_string(sides_.size())}),
              {page_w - edge, 9}, words(8), Anchor::right);
    page.paragraph(say(Say::card_head, language(),
                       {date_text(trip.date, language()), std::to_string(trip.request.party.size),
                        length_text(trip.map_scale / 1000, trip::LengthUnit::metric)}),
                   {fold + 5, 13.4}, page_w - edge - fold - 5, words(7.6), 3.4, 2);
    page.stroke({{edge, head_h}, {page_w - edge, head_h}}, {ink::night, 0.3});
  }

  /// The day from an hour before the first thing that matters to an hour after the last.
  void day_bar(Page& page, Mm at, double width) {
    const auto& sch = plan_.schedule;
    const auto& d = plan_.daylight;
    const auto hours = [](trip::Clock c) { return static_cast<double>(c.count()) / 60; };
    double from = hours(sch.start), to = hours(sch.end_slow);
    if (d.dusk) to = std::max(to, hours(*d.dusk));
    from = std::floor(from - 0.5);
    to = std::ceil(to + 0.3);
    const auto x = [&](double h) {
      return at.x + std::clamp((h - from) / (to - from), 0.0, 1.0) * width;
    };
    page.box(at.x, at.y, width, 2.2, ink::paper);
    const auto dark = [&](double a, double b, bool twilight) {
      if (x(b) - x(a) < 0.05) return;
      if (!twilight) return page.box(x(a), at.y, x(b) - x(a), 2.2, ink::night);
      std::vector<std::vector<Mm>> hatch;
      for (double u = x(a); u < x(b); u += 0.6)
        hatch.push_back({{u, at.y + 2.2}, {std::min(u + 0.6, x(b)), at.y}});
      page.strokes(std::move(hatch), {ink::night, 0.15});
    };
    if (d.dusk) dark(hours(*d.dusk), to, false);
    if (d.set && d.dusk) dark(hours(*d.set), hours(*d.dusk), true);
    if (d.dawn) dark(from, hours(*d.dawn), false);
    if (d.dawn && d.rise) dark(hours(*d.dawn), hours(*d.rise), true);
    page.frame(at.x, at.y, width, 2.2, {ink::night, 0.25});
    for (const auto& t : sch.legs)
      page.box(x(hours(t.leave)), at.y + 0.6, x(hours(t.arrive)) - x(hours(t.leave)), 1.0,
               ink::night);
    page.stroke({{x(hours(sch.end)), at.y + 1.1}, {x(hours(sch.end_slow)), at.y + 1.1}},
                {ink::night, 0.3});
    for (double h = from + 1; h < to; ++h) {
      page.text(fmt::format("{:.0f}", std::fmod(h + 48, 24)), {x(h), at.y + 4.8},
                {Face::figures, 2.1, ink::text}, Anchor::middle);
    }
    if (sch.turn_round) {
      const double u = x(hours(*sch.turn_round));
      page.box(u - 0.35, at.y - 0.6, 0.7, 3.4, ink::night);
    }
  }

  void leg(Page& page, std::size_t i, double y) {
    const Leg& l = plan_.way.legs[i];
    page.stroke({{edge, y}, {page_w - edge, y}}, {ink::night, i == 0 ? 0.0 : 0.3});
    page.box(edge, y + 0.4, 9, row_ - 0.8, ink::night);
    page.text(
        std::to_string(i + 1), {edge + 4.5, y + 0.5 * row_ + 2.6},
        {Face::figures_bold, (i < 99 ? 17.0 : 11.0) * mm_per_point * std::min(k_, 1.2), ink::paper},
        Anchor::middle);
    do_half(page, i, y);
    see_half(page, l, y);
  }

  void do_half(Page& page, std::size_t i, double y) {
    const Leg& l = plan_.way.legs[i];
    const auto& t = plan_.schedule.legs[i];
    const double x = edge + 11.5, right = fold - 4;
    const auto reference = figures(10.5 * k_);
    const double ref_w =
        page.text(plan_.references[i], {right, y + 4.6 * k_}, reference, Anchor::right);
    std::string title = l.from + " → ";
    const double room = right - x - ref_w - 3;
    const auto from_type = words(7.5 * k_), to_type = words(9.6 * k_, true);
    const double to_w = std::min(page.width(l.to, to_type), room);
    const double from_w = room - to_w - 1;
    double at = x;
    if (from_w > 12)
      at += page.fitted(title, {x, y + 4.6 * k_}, from_w, from_type, Anchor::left, 0.9) + 1;
    page.fitted(l.to, {at, y + 4.6 * k_}, right - ref_w - 3 - at, to_type, Anchor::left, 0.8);

    const double base = y + 0.5 * row_ + 4.3 * k_;
    if (l.kind == LegKind::bearing) {
      const bool mils = plan_.trip.angles == trip::AngleUnit::mils;
      const auto big = figures((mils ? 24 : 29) * std::min(k_, 1.35));
      const double w =
          page.text(bearing_text(l.magnetic_bearing, plan_.trip.angles), {x, base}, big);
      page.text(mils ? "mil" : "°", {x + w + 0.3, base - (mils ? 0 : 0.45 * big.size_mm)},
                figures(mils ? 8 : 14));
    } else {
      const double h = 7.5 * std::min(k_, 1.2);
      for (const double dx : {0.0, 5.0}) page.box(x + dx, base - h, 0.9, h, ink::night);
      page.stroke({{x + 2.95, base - h}, {x + 2.95, base}}, {ink::night, 0.5, {1.4, 0.8}});
      page.fitted(l.along, {x + 8, base - 0.8}, 24, words(14 * std::min(k_, 1.2), true),
                  Anchor::left, 0.55);
    }
    const double column = x + 34;
    const auto value = figures(13.5 * std::min(k_, 1.3)), label = words(6.6);
    const auto cell = [&](double cx, const std::string& figure, const std::string& name) {
      page.text(figure, {cx, base - 1.2}, value);
      page.fitted(name, {cx, base + 1.9}, 16, label);
    };
    cell(column, fmt::format("{:.0f}", l.double_paces), say(Say::double_paces, language()));
    cell(column + 17, fmt::format("{:.0f}", l.minutes), say(Say::minutes_short, language()));
    page.text(trip::clock_text(t.arrive), {column + 26, base - 1.2}, value);
    const double rw = page.text(say(Say::real, language()), {column + 26, base + 1.9}, label);
    page.stroke({{column + 27 + rw, base + 1.9}, {column + 38, base + 1.9}}, {ink::stone, 0.2});
    // Length, millimetres, climb: one small line under the how.
    std::string small = fmt::format("{} · {:.0f} mm", length(l.length_m),
                                    mapdata::length_m(l.line) * 1000 / plan_.trip.map_scale);
    if (l.climb_m >= 5) small += " · ↑" + height_text(l.climb_m, plan_.trip.lengths);
    if (l.descent_m >= 5) small += " · ↓" + height_text(l.descent_m, plan_.trip.lengths);
    const auto small_type = words(7.2 * std::min(k_, 1.2));
    const double small_w = page.text(small, {right, y + row_ - 1.6}, small_type, Anchor::right);
    page.fitted(how_to(l, plan_), {x, y + row_ - 1.6}, right - x - small_w - 3,
                words(8.0 * std::min(k_, 1.25), l.aim_off.has_value()), Anchor::left, 0.8);
  }

  void see_half(Page& page, const Leg& l, double y) {
    const double x = fold + 5, right = page_w - edge;
    const double size = std::min(k_, 1.25);
    stones(page, l, right, y);
    // The three ticks that tell most, in their order: what is crossed goes before what is passed.
    std::vector<const walking::Tick*> best;
    for (const auto& t : l.ticks) best.push_back(&t);
    std::ranges::stable_sort(best, [](const auto* a, const auto* b) {
      return (a->kind != mapdata::Kind::other) > (b->kind != mapdata::Kind::other);
    });
    if (best.size() > 3) best.resize(3);
    std::ranges::stable_sort(best, {}, [](const auto* t) { return t->at_m; });
    for (std::size_t k = 0; k < best.size(); ++k) {
      const double tx = x + 26 * static_cast<double>(k);
      page.frame(tx, y + 1.9, 2.1, 2.1, {ink::night, 0.3});
      const double w = page.text(length(best[k]->at_m), {tx + 3.2, y + 4.0},
                                 {Face::figures_bold, 2.9 * size, ink::night});
      page.text(fmt::format("{:.0f} min", best[k]->minutes), {tx + 4.2 + w, y + 4.0}, words(7));
      page.fitted(best[k]->what, {tx, y + 7.4 * size}, 25, words(7.6 * size), Anchor::left, 0.8);
    }
    double line = y + 11.0 * size;
    const double gap = 2.95 * size, label_w = 16 * size;
    const auto row = [&](Say what, const std::string& text, bool bold, bool framed, int lines) {
      if (framed) page.frame(x - 0.6, line - 2.5, label_w - 0.8, 3.3, {ink::night, 0.3});
      page.fitted(say(what, language()), {x, line}, label_w - 1.5, words(7.4 * size, framed));
      const auto type = words(7.6 * size, bold);
      if (lines == 1) {
        page.fitted(text, {x + label_w, line}, right - x - label_w, type, Anchor::left, 0.8);
        line += gap;
      } else {
        line = page.paragraph(text, {x + label_w, line}, right - x - label_w, type, gap, lines);
      }
    };
    std::string stop = say(Say::nothing_stops, language());
    if (l.stop) {
      stop = l.stop->what + (l.stop->beyond_m >= 1
                                 ? " " + say(Say::beyond, language(), {length(l.stop->beyond_m)})
                                 : "");
    }
    row(Say::stops_you, stop, true, false, 1);
    if (!l.dangers.empty()) row(Say::keep_off, l.dangers.front().what, true, true, 1);
    if (l.sureness && !l.sureness->if_lost.empty()) {
      row(Say::if_lost, l.sureness->if_lost, false, false, l.dangers.empty() ? 2 : 1);
    }
    if (line <= y + row_ - 0.6 && l.way_off) {
      row(Say::way_off, fmt::format("{}, {:.0f} min", l.way_off->words, l.way_off->minutes), false,
          false, 1);
    }
  }

  void stones(Page& page, const Leg& l, double right, double y) {
    const double top = y + 1.6;
    if (!l.sureness) {
      page.text(say(Say::not_judged, language()), {right, top + 2.4}, words(7), Anchor::right);
      return;
    }
    if (!l.sureness->fix_at_end) {
      page.stroke({{right - 11, top + 0.9}, {right, top + 0.9}}, {ink::night, 0.5, {1.3, 0.7}});
      page.text(say(Say::no_fix, language()), {right, top + 5}, words(7, true), Anchor::right);
      return;
    }
    const int full = stones_of(l.sureness->certainty);
    for (int s = 0; s < 4; ++s) {
      const double sx = right - 11.4 + 2.9 * s;
      if (s < full) page.box(sx, top, 2.4, 2.4, ink::night);
      page.frame(sx, top, 2.4, 2.4, {ink::night, 0.3});
    }
    page.text(say(Say::certainty_of, language(),
                  {fmt::format("{:.0f}", std::floor(100 * l.sureness->certainty))}),
              {right, top + 5.4}, words(7, true), Anchor::right);
  }

  void turn_rule(Page& page, double y) {
    const auto& s = plan_.schedule;
    const auto& at = plan_.way.legs[static_cast<std::size_t>(s.turn_round_leg)];
    page.frame(edge, y, page_w - 2 * edge, 10, {ink::night, 0.6});
    const auto clock = trip::clock_text(*s.turn_round);
    const double w = page.fitted(say(Say::turn_round, language(), {at.to}), {edge + 3, y + 6.6}, 72,
                                 words(10, true));
    page.text(clock, {edge + 5 + w, y + 6.8}, figures(15));
    const auto back = fmt::format("{} h {:02}", std::lround(s.turn_round_back_min) / 60,
                                  std::lround(s.turn_round_back_min) % 60);
    const auto there =
        trip::clock_text(*s.turn_round + trip::Clock{std::lround(s.turn_round_back_min)});
    page.fitted(say(Say::turn_back, language(), {back, plan_.way.legs.front().from, there}),
                {fold + 5, y + 6.6}, page_w - edge - fold - 8, words(8.5));
  }

  void help(Page& page, double y, bool turns_here) {
    page.stroke({{edge, y}, {page_w - edge, y}}, {ink::night, 0.3});
    double line = y + 5;
    page.text(say(Say::lost_title, language()), {edge, line}, words(9.6, true));
    const double below = turns_here ? foot_y + 1.5 : page_h - 5;
    const double gap = std::min(4.6, (below - line - 2) / 5.2);
    for (const auto what : {Say::lost_1, Say::lost_2, Say::lost_3, Say::lost_4})
      page.fitted(say(what, language()), {edge + 1, line += gap}, fold - edge - 6, words(8));
    const auto& s = plan_.schedule;
    page.fitted(
        say(Say::end_line, language(),
            {trip::clock_text(s.end), trip::clock_text(s.end_slow), trip::clock_text(s.act_by)}),
        {edge, line += gap}, fold - edge - 5, words(8, true));
    const double x = fold + 5;
    line = y + 5.4;
    const double hw = page.text(say(Say::help, language()), {x, line}, words(9.6, true));
    const auto number = plan_.trip.emergency_number;
    page.text(number.empty() ? "________" : number, {x + hw + 3, line}, figures(15));
    const auto signal =
        plan_.trip.signals == trip::SignalRegion::alpine ? Say::signal_alpine : Say::signal_america;
    line = page.paragraph(say(signal, language()), {x, line + 4.6}, 52, words(7.8), 3.5, 3);
    page.paragraph(say(Say::help_say, language()), {x, line + 0.4}, 52, words(7.8), 3.5, 3);
    const double mx = page_w - edge - 38;
    page.text(say(Say::marks, language()), {mx, y + 5}, words(8.6, true));
    double my = y + 7.2;
    for (const auto& [stones, least] :
         {std::pair{4, 98}, std::pair{3, 95}, std::pair{2, 90}, std::pair{1, 75}}) {
      for (int k = 0; k < 4; ++k) {
        if (k < stones) page.box(mx + 2.3 * k, my, 1.9, 1.9, ink::night);
        page.frame(mx + 2.3 * k, my, 1.9, 1.9, {ink::night, 0.25});
      }
      page.fitted(say(Say::or_more, language(), {std::to_string(least)}), {mx + 10.5, my + 1.7}, 28,
                  words(7));
      my += 3.0;
    }
    page.stroke({{mx, my + 0.9}, {mx + 8.6, my + 0.9}}, {ink::night, 0.5, {1.2, 0.7}});
    page.fitted(say(Say::no_fix_mark, language()), {mx + 10.5, my + 1.7}, 28, words(7));
    if (turns_here) turn_rule(page, foot_y + 1.5);
  }

  const trip::Plan& plan_;
  const TextMeasure& measure_;
  int legs_a_side_;
  double k_, row_;
  std::vector<Side> sides_;
};

}  // namespace

int stones_of(double certainty) {
  return certainty >= 0.98   ? 4
         : certainty >= 0.95 ? 3
         : certainty >= 0.90 ? 2
         : certainty >= 0.75 ? 1
                             : 0;
}

std::string how_to(const Leg& leg, const trip::Plan& plan) {
  const auto language = plan.trip.language;
  if (leg.kind == LegKind::along) return say(Say::along_the, language, {leg.along});
  if (!leg.aim_off) return say(Say::straight, language);
  const bool left = leg.aim_off->side == mapdata::Side::left;
  return std::string(say(left ? Say::aim_off_left : Say::aim_off_right, language)) + " " +
         say(Say::then_turn, language,
             {leg.aim_off->line, say(left ? Say::right : Say::left, language),
              length_text(leg.aim_off->offset_m, plan.trip.lengths)});
}

std::vector<Drawing> draw_card(const trip::Plan& plan, const TextMeasure& measure,
                               CardStyle style) {
  return Card(plan, measure, style).draw();
}

}  // namespace lodeway::sheet
