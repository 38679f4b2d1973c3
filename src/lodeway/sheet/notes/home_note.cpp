#include "lodeway/sheet/notes/home_note.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/sheet/draw/verdict_band.hpp"
#include "lodeway/sheet/map/cover.hpp"
#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/map/map_margin.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/sheet/notes/home_note_parts.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/kept_told.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::sheet {

namespace {

using home::edge, home::page_w, home::page_h, home::wide, home::words;
constexpr double way_w = 89, map_x = edge + way_w + 6, map_w = page_w - edge - map_x - 5;
constexpr double row_mm = 4.6;
constexpr double least_map_h = 48;
constexpr double most_band = 26;  // of the verdict: what it has no room for is on the next side
constexpr std::size_t most_rows = 15;
constexpr double searched_harm = 0.001;  // *practice*: a leg that sends fewer is not searched first
const char* const blank = "______________________________";

class Note {
 public:
  Note(const trip::Plan& plan, const walking::Ground& ground, const TextMeasure& measure)
      : plan_(plan), ground_(ground), page_(page_w, page_h, plan.trip.name, measure) {}

  std::vector<Drawing> draw() {
    home::draw_title(page_, plan_);
    const double fold = edge + 0.5 * wide;
    const double band = verdict_band_h(plan_, wide, fold - edge, most_band, page_.measure());
    const double down = band + 1;
    const auto unsaid = draw_verdict_band(page_, plan_, {edge, 25}, wide, fold, band);
    times(26 + down);
    const double top = what_to_do(58 + down) + 4;
    const double low = std::max(way({edge, top}), top + least_map_h);
    map({map_x, top - 3.5}, {map_w, low - top + 1});
    const double below = party(low + 4);
    const double end = goes_wrong(below + 2) + 1;
    const auto known = trip::told_on(plan_, trip::Reach::home_note);
    const bool here = references_fit(end);
    if (here)
      references(end);
    else
      page_.fitted(say(Say::overleaf, language(), {"2"}), {edge, 278.4}, wide, words(8, true),
                   Anchor::left, 0.6);
    std::vector<Drawing> out;
    if (!here || unsaid > 0 || !known.empty())
      out = home::draw_overleaf(plan_, page_.measure());
    home::draw_promise(page_, plan_, {1, out.size() + 1});
    out.insert(out.begin(), page_.take());
    return out;
  }

 private:
  using Leg = walking::Leg;
  [[nodiscard]] units::Language language() const { return plan_.trip.language; }
  [[nodiscard]] std::string number() const {
    return plan_.trip.emergency_number.empty() ? say(Say::blank_number, language())
                                               : plan_.trip.emergency_number;
  }
  static std::string strong(const std::string& text) {
    return std::string(1, bold_on) + text + std::string(1, plain_on);
  }

  [[nodiscard]] std::string no_hour() const {
    return say(Say::no_hour, language(), {trip::harmed_of_hundred(plan_.schedule.never_home)});
  }

  /// Blanks that do not break a line.
  static std::string whole(std::string words) {
    for (auto at = words.find(' '); at != std::string::npos; at = words.find(' ', at))
      words.replace(at, 1, "\u00A0");
    return words;
  }

  void times(double y) {
    const auto& s = plan_.schedule;
    const struct {
      Say name, why;
      std::optional<trip::Clock> at;
    } boxes[] = {{s.one_way ? Say::due_at : Say::back_at, Say::back_why, s.end},
                 {Say::worry_after, s.one_way ? Say::due_why : Say::worry_why, s.end_slow},
                 {Say::act_at, Say::act_why, s.act_by}};
    const double w = (wide - 8) / 3;
    for (int i = 0; i < 3; ++i) {
      const double x = edge + i * (w + 4);
      const bool act = i == 2;
      if (act) page_.box(x, y, w, 25, ink::night);
      page_.frame(x, y, w, 25, {ink::night, 0.4});
      const Ink in = act ? ink::paper : ink::text;
      page_.text(say(boxes[i].name, language()), {x + 3, y + 5.6}, {Face::words_bold, 3.6, in});
      if (!boxes[i].at) {
        page_.paragraph(no_hour(), {x + 3, y + 10.4}, w - 5, {Face::words_bold, 3.0, in}, 3.6, 4);
        continue;
      }
      page_.fitted(clock_text(*boxes[i].at, plan_.daylight), {x + 3, y + 16.4}, w - 6,
                   {Face::figures_bold, 10.2, in});
      page_.paragraph(say(boxes[i].why, language()), {x + 3, y + 20.4}, w - 5,
                      {Face::words, 2.6, in}, 3.1, 2);
    }
  }

  double what_to_do(double y) {
    const auto& s = plan_.schedule;
    const auto& leader = plan_.trip.leader;
    page_.text(say(Say::do_title, language()), {edge, y}, words(11, true));
    double line = y + 5.6;
    int n = 1;
    const auto step = [&](std::optional<trip::Clock> at, const std::string& text) {
      const Type figure{Face::figures_bold, 3.5, ink::night};
      page_.text(std::to_string(n++), {edge + 1, line}, figure);
      if (at) page_.fitted(clock_text(*at, plan_.daylight), {edge + 7, line}, 15, figure);
      line = page_.paragraph(text, {edge + 23, line}, wide - 23, words(9.6), 4.4, 2) + 0.5;
    };
    if (!s.end_slow) step({}, say(Say::agree_hour, language()));  // before all that comes after it
    step(s.end_slow,
         say(Say::do_1, language(),
             {strong(leader.phone.empty() ? "____________" : leader.name + " " + leader.phone)}));
    step({}, say(Say::do_2, language()));
    step({}, say(Say::do_3, language()));
    step(s.act_by, say(Say::do_4, language(), {strong(number())}));
    step({}, say(s.one_way ? Say::do_5_one_way : Say::do_5, language()));
    if (plan_.daylight.dusk && s.act_by && !trip::planned_for_night(plan_.trip)) {
      const auto& day = plan_.daylight;
      const bool light = *s.act_by <= *day.dusk && (!day.dawn || *s.act_by >= *day.dawn);
      line = page_.paragraph(say(light ? Say::dark_note : Say::no_dark_note, language(),
                                 {clock_text(*plan_.daylight.dusk, plan_.daylight)}),
                             {edge + 23, line}, wide - 23, words(9, !light), 4.2, 2);
    }
    page_.text(say(Say::say_title, language()), {edge, line + 2.6}, words(10, true));
    const double from = line + 7.2;
    line = page_.paragraph(
        say(s.one_way ? Say::say_words_one_way : Say::say_words, language(),
            {std::to_string(plan_.trip.request.party.size),
             plan_.way.legs.front().course.from + ", " +
                 whole(home::full_or_six(plan_.start_full_reference, plan_.start_reference)),
             zoned(clock_text(s.start, plan_.daylight), plan_.trip),
             date_text(plan_.trip.date, language()),
             plan_.way.legs.back().course.to + ", " +
                 whole(home::full_or_six(plan_.way.legs.back().full_reference, plan_.way.legs.back().reference)),
             clock_text(s.end, plan_.daylight)}),
        {edge + 3, from}, wide - 3, words(9.4), 4.3, 5);
    page_.box(edge, from - 3.2, 0.9, line - from, ink::night);
    return line;
  }

  /// The legs whose ends are listed: all, or those at the leader's own places when there are many.
  [[nodiscard]] std::vector<std::size_t> listed() const {
    const auto& legs = plan_.way.legs;
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < legs.size(); ++i) out.push_back(i);
    if (out.size() <= most_rows - 1) return out;
    std::erase_if(out, [&](std::size_t i) {
      return i + 1 < legs.size() &&
             std::ranges::none_of(plan_.trip.request.points, [&](const auto& point) {
               return earth::grid_distance_m(point.at, legs[i].course.line.back()) < 1;
             });
    });
    const auto every = (out.size() + most_rows - 3) / (most_rows - 2);
    std::vector<std::size_t> fewer;
    for (std::size_t k = 0; k < out.size(); ++k) {
      if (k % every == every - 1 || k + 1 == out.size()) fewer.push_back(out[k]);
    }
    return fewer;
  }

  double way(Mm at) {
    page_.fitted(std::string(say(Say::way_title, language())) + " (" + plan_.trip.zone + ")", at,
                 way_w, words(11, true), Anchor::left, 0.6);
    double y = at.y + 5.4;
    const auto line = [&](trip::Clock time, const std::string& leg, const std::string& what,
                          const std::string& reference) {
      page_.fitted(clock_text(time, plan_.daylight), {at.x, y}, 14,
                   {Face::figures_bold, 3.0, ink::night});
      page_.text(leg, {at.x + 19.5, y}, {Face::figures, 2.8, ink::text}, Anchor::right);
      const double w =
          page_.text(reference, {at.x + way_w, y}, {Face::figures, 2.8, ink::text}, Anchor::right);
      page_.fitted(what, {at.x + 22, y}, way_w - 24 - w, words(8.8), Anchor::left, 0.6);
      page_.stroke({{at.x, y + 1.3}, {at.x + way_w, y + 1.3}}, {ink::rule, 0.12});
      y += row_mm;
    };
    line(plan_.schedule.start, "", plan_.way.legs.front().course.from, plan_.start_reference);
    const auto rows = listed();
    for (const auto i : rows)
      line(plan_.schedule.legs[i].arrive, std::to_string(i + 1), plan_.way.legs[i].course.to,
           plan_.way.legs[i].reference);
    if (rows.size() < plan_.way.legs.size()) {
      y = page_.paragraph(say(Say::many_legs, language(), {std::to_string(plan_.way.legs.size())}),
                          {at.x, y}, way_w, words(8), 3.6, 2);
    }
    return y;
  }

  /// Two columns of what those who search ask for; what is not given is a blank.
  double party(double top) {
    const auto& t = plan_.trip;
    page_.text(say(Say::party_of, language(), {std::to_string(t.request.party.size)}), {edge, top},
               words(11, true));
    std::string members;
    for (const auto& m : t.members) members += (members.empty() ? "" : ", ") + m;
    const auto leader = t.leader.name.empty() ? "" : t.leader.name + " " + t.leader.phone;
    const std::pair<Say, std::string> columns[2][5] = {{{Say::leader, leader},
                                                        {Say::members, members},
                                                        {Say::check_in, t.check_in},
                                                        {Say::transport, t.transport},
                                                        {Say::number, t.emergency_number}},
                                                       {{Say::gear, t.gear},
                                                        {Say::clothing, t.clothing},
                                                        {Say::beacon, t.beacon},
                                                        {Say::experience, t.experience},
                                                        {Say::medical, t.medical}}};
    double lowest = top;
    for (int c = 0; c < 2; ++c) {
      const double x = edge + c * (0.5 * wide + 2), w = 0.5 * wide - 2, label_w = 25;
      double y = top + 5.2;
      for (const auto& [name, value] : columns[c]) {
        page_.fitted(say(name, language()), {x, y}, label_w - 1, words(8), Anchor::left, 0.6);
        y = page_.paragraph(value.empty() ? blank : value, {x + label_w, y}, w - label_w,
                            words(8.6, !value.empty()), 3.9, 2) +
            0.6;
      }
      lowest = std::max(lowest, y);
    }
    return lowest;
  }

  /// The leg that fewest keep, and the one that sends most onto ground to keep off.
  [[nodiscard]] std::string search_first() const {
    const auto& legs = plan_.way.legs;
    auto least = legs.end(), worst = legs.end();
    for (auto leg = legs.begin(); leg != legs.end(); ++leg) {
      const auto& j = leg->judged;
      if (least == legs.end() || trip::kept_told(j) < trip::kept_told(least->judged)) least = leg;
      if (j.hazard_probability >= searched_harm &&
          (worst == legs.end() || j.hazard_probability > worst->judged.hazard_probability))
        worst = leg;
    }
    const auto told = [&](Say what, auto leg, const std::string& figure) {
      return say(
          what, language(),
          {std::to_string(leg - legs.begin() + 1), leg->course.from, leg->course.to, figure});
    };
    std::string out;
    if (least != legs.end()) {
      out = told(Say::least_sure, least, of_hundred(trip::kept_told(least->judged)));
      if (!least->dangers.empty())
        out += std::string(" ") + say(Say::keep_off, language()) + ": " +
               least->dangers.front().what + ".";
    }
    if (worst != legs.end()) {
      out += (out.empty() ? "" : " ") +
             told(Say::most_dangerous, worst,
                  trip::harmed_of_hundred(worst->judged.hazard_probability));
    }
    return out;
  }

  double goes_wrong(double top) {
    const auto& s = plan_.schedule;
    double y = top;
    const auto row = [&](Say name, const std::string& text) {
      constexpr double label_w = 30;
      const int room = std::max(1, static_cast<int>((275 - y) / 3.9) + 1);
      page_.fitted(say(name, language()), {edge, y}, label_w - 2, words(8.6, true), Anchor::left,
                   0.6);
      y = page_.paragraph(text, {edge + label_w, y}, wide - label_w, words(8.6), 3.9,
                          std::min(room, 5)) +
          0.8;
    };
    std::string wrong;
    if (s.turn_round) {
      wrong = say(
          Say::they_turn, language(),
          {plan_.way.legs[static_cast<std::size_t>(s.turn_round_leg)].course.to,
           strong(clock_text(*s.turn_round, plan_.daylight)), plan_.way.legs.front().course.from,
           clock_text(*s.turn_round + trip::Clock{std::lround(s.turn_round_back_min)},
                      plan_.daylight),
           std::to_string(s.turn_round_leg + 1)});
    }
    std::map<std::string, std::pair<std::vector<std::size_t>, double>> havens;
    for (std::size_t i = 0; i < plan_.way.legs.size(); ++i) {
      const auto& off = plan_.way.legs[i].escape;
      if (!off || off->line.empty()) continue;
      auto& [legs, longest] = havens[off->haven];
      legs.push_back(i);
      longest = std::max(longest, off->minutes);
    }
    std::size_t said = 0;
    for (const auto& [haven, from] : havens) {
      if (++said > 4) break;
      wrong += (wrong.empty() ? "" : " ") +
               say(Say::they_leave, language(),
                   {legs_text(from.first, language()), haven, fmt::format("{:.0f}", from.second)});
    }
    if (wrong.empty()) wrong = say(Say::escape_none, language());
    row(Say::goes_wrong, wrong);
    if (const auto first = search_first(); !first.empty()) row(Say::look_first, first);
    std::string missed;
    for (const auto& what : trip::shortfalls(plan_, plan_.trip.most_keep_off))
      missed += (missed.empty() ? "" : "; ") + what;
    if (!missed.empty()) row(Say::not_got, missed + ".");
    return y;
  }

  static constexpr double leading = 2.8, bottom_of_references = 278.8;

  [[nodiscard]] bool references_fit(double top) const {
    return plan_.way.legs.size() + 1 <= 3 * static_cast<std::size_t>((bottom_of_references - top) / leading);
  }

  /// What rescuers ask for: start, and each leg's end, in columns.
  void references(double top) {
    const auto rows = static_cast<std::size_t>((bottom_of_references - top) / leading);
    page_.fitted(say(Say::full_reference, language()), {edge, top}, wide, words(7.6, true),
                 Anchor::left, 0.7);
    std::vector<std::string> all{plan_.way.legs.front().course.from + ": " +
                                 plan_.start_full_reference};
    for (std::size_t i = 0; i < plan_.way.legs.size(); ++i)
      all.push_back(std::to_string(i + 1) + ": " + plan_.way.legs[i].full_reference);
    for (std::size_t k = 0; k < all.size(); ++k) {
      const double x = edge + static_cast<double>(k / rows) * wide / 3;
      page_.fitted(all[k], {x, top + leading * static_cast<double>(k % rows + 1)}, wide / 3 - 2,
                   {Face::figures, 2.3, ink::text}, Anchor::left, 0.6);
    }
  }

  void map(Mm at, Mm size) {
    MapFrame f;
    f.at = {at.x, at.y + 4};
    f.w = size.x;
    f.h = size.y - 8;
    GroundBox box;
    for (const auto& leg : plan_.way.legs) box.add(leg.course.line);
    for (const double s : {10000.0, 25000.0, 50000.0, 75000.0, 100000.0, 150000.0, 250000.0,
                           500000.0, 1000000.0, 2500000.0}) {
      f.scale = s;
      if (f.mm(box.wide()) < f.w - 14 && f.mm(box.high()) < f.h - 14) break;
    }
    f = centred(f, box.middle());
    page_.fitted(say(Say::map_title, language(), {thousands(f.scale)}), {at.x, at.y + 2}, f.w,
                 words(9, true), Anchor::left, 0.6);
    Labels labels({f.at.x, f.at.y, f.at.x + f.w, f.at.y + f.h});
    page_.clip(f.at.x, f.at.y, f.w, f.h);
    draw_ground(page_, labels, f, ground_,
                2 * contour_interval_m(f.scale, plan_.trip.lengths == trip::LengthUnit::imperial),
                true);
    for (const auto& leg : plan_.way.legs) {
      const auto line = on_page(f, leg.course.line, 0.3);
      page_.stroke(line, {ink::paper, 1.8, {}, true});
      page_.stroke(line, {ink::night, 0.8, {}, true});
      each_step(line, 2,
                [&](Mm p, Mm) { labels.hold({p.x - 0.5, p.y - 0.5, p.x + 0.5, p.y + 0.5}); });
    }
    const auto mark = [&](earth::GridPoint p, const std::string& name) {
      const Mm m = f.on_page(p);
      page_.fill({circle(m, 0.9)}, ink::night);
      (void)name_beside(page_, labels, name, m, 1.6, {Face::words_bold, 2.6, ink::night, 0.8});
    };
    mark(plan_.way.legs.front().course.line.front(), plan_.way.legs.front().course.from);
    const auto& points = plan_.trip.request.points;
    for (auto p = points.begin(); p != points.end(); ++p) {
      const bool told = std::any_of(points.begin(), p, [&](const walking::Waypoint& q) {
        return q.name == p->name && earth::grid_distance_m(q.at, p->at) < 1;
      });
      if (p != points.begin() && !told && !p->name.empty()) mark(p->at, p->name);
    }
    number_legs(labels, f);
    page_.unclip();
    page_.frame(f.at.x, f.at.y, f.w, f.h, {ink::text, 0.3});
    draw_grid_figures(page_, f, {Face::figures, 2.3, ink::text});
  }

  void number_legs(Labels& labels, const MapFrame& f) {
    const Type type{Face::figures_bold, 2.3, ink::paper};
    for (const auto i : listed()) {  // on a long day more would hide the map
      const auto line = on_page(f, plan_.way.legs[i].course.line, 0.3);
      if (length_mm(line) < 3) continue;
      Mm d;
      const Mm m = point_at(line, 0.5, d);
      const auto digits = std::to_string(i + 1);
      const double w = std::max(2.9, page_.width(digits, type) + 1.0);
      for (const double off : {2.6, -2.6, 3.6, -3.6}) {
        const Mm c{m.x - off * d.y, m.y + off * d.x};
        if (!labels.take({c.x - 0.5 * w, c.y - 1.5, c.x + 0.5 * w, c.y + 1.5})) continue;
        page_.box(c.x - 0.5 * w, c.y - 1.45, w, 2.9, ink::night);
        page_.text(digits, {c.x, c.y + 0.83}, type, Anchor::middle);
        break;
      }
    }
  }

  const trip::Plan& plan_;
  const walking::Ground& ground_;
  Page page_;
};

}  // namespace

std::vector<Drawing> draw_home_note(const trip::Plan& plan, const walking::Ground& ground,
                                    const TextMeasure& measure) {
  return Note(plan, ground, measure).draw();
}

}  // namespace lodeway::sheet
