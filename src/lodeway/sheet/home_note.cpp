#include "lodeway/sheet/home_note.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/map_legs.hpp"
#include "lodeway/sheet/map_relief.hpp"
#include "lodeway/sheet/map_sheet.hpp"
#include "lodeway/sheet/page.hpp"
#include "lodeway/sheet/wording.hpp"
#include "lodeway/trip/clock_text.hpp"

namespace lodeway::sheet {

namespace {

constexpr double page_w = 210, page_h = 297, edge = 14, wide = page_w - 2 * edge;

Type words(double points, bool bold = false) {
  return {bold ? Face::words_bold : Face::words, points * mm_per_point, ink::text};
}

class Note {
 public:
  Note(const trip::Plan& plan, const walking::Ground& ground, const TextMeasure& measure)
      : plan_(plan), ground_(ground), page_(page_w, page_h, plan.trip.name, measure) {}

  Drawing draw() {
    page_.text(say(Say::home_title, language()), {edge, 17}, words(17, true));
    page_.fitted(fmt::format("{} · {}", plan_.trip.name, date_text(plan_.trip.date, language())),
                 {page_w - edge, 17}, 80, words(10), Anchor::right);
    times(23);
    const double below = what_to_do(55);
    const double columns = std::max(below + 3, 122.0);
    way({edge, columns}, 88);
    party({edge + 94, columns}, wide - 94);
    map({edge, 196}, {wide, 78});
    page_.paragraph(say(Say::promise, language()), {edge, 283}, wide,
                    {Face::words, 2.8, ink::stone}, 3.6, 2);
    return page_.take();
  }

 private:
  [[nodiscard]] units::Language language() const { return plan_.trip.language; }
  [[nodiscard]] std::string number() const {
    return plan_.trip.emergency_number.empty() ? say(Say::blank_number, language())
                                               : plan_.trip.emergency_number;
  }

  void times(double y) {
    const auto& s = plan_.schedule;
    const struct {
      Say name, why;
      trip::Clock at;
    } boxes[] = {{Say::back_at, Say::back_why, s.end},
                 {Say::worry_after, Say::worry_why, s.end_slow},
                 {Say::act_at, Say::act_why, s.act_by}};
    const double w = (wide - 8) / 3;
    for (int i = 0; i < 3; ++i) {
      const double x = edge + i * (w + 4);
      const bool act = i == 2;
      if (act) page_.box(x, y, w, 25, ink::night);
      page_.frame(x, y, w, 25, {ink::night, 0.4});
      const Ink in = act ? ink::paper : ink::text;
      page_.text(say(boxes[i].name, language()), {x + 3, y + 5.6}, {Face::words_bold, 3.6, in});
      page_.fitted(trip::clock_text(boxes[i].at), {x + 3, y + 16.8}, w - 6,
                   {Face::figures_bold, 10.2, in});
      page_.paragraph(say(boxes[i].why, language()), {x + 3, y + 20.6}, w - 5,
                      {Face::words, 2.6, in}, 3.0, 2);
    }
  }

  double what_to_do(double y) {
    const auto& s = plan_.schedule;
    const auto leader = plan_.trip.leader.phone.empty()
                            ? std::string("____________")
                            : plan_.trip.leader.name + " " + plan_.trip.leader.phone;
    page_.text(say(Say::do_title, language()), {edge, y}, words(11, true));
    double line = y + 5.6;
    int n = 1;
    const auto step = [&](const std::string& text) {
      page_.text(std::to_string(n++), {edge + 1, line}, {Face::figures_bold, 3.6, ink::night});
      line = page_.paragraph(text, {edge + 7, line}, wide - 7, words(9.6), 4.5, 2) + 0.6;
    };
    step(say(Say::do_1, language(), {trip::clock_text(s.end_slow), leader}));
    step(say(Say::do_2, language()));
    step(say(Say::do_3, language()));
    step(say(Say::do_4, language(), {trip::clock_text(s.act_by), number()}));
    step(say(Say::do_5, language()));
    if (plan_.daylight.dusk) {
      const bool light = s.act_by <= *plan_.daylight.dusk;
      line = page_.paragraph(say(light ? Say::dark_note : Say::no_dark_note, language(),
                                 {trip::clock_text(*plan_.daylight.dusk)}),
                             {edge + 7, line}, wide - 7, words(9, !light), 4.3, 2);
    }
    page_.text(say(Say::say_title, language()), {edge, line + 3.2}, words(10, true));
    return page_.paragraph(
        say(Say::say_words, language(),
            {std::to_string(plan_.trip.request.party.size), plan_.way.legs.front().from,
             trip::clock_text(s.start), date_text(plan_.trip.date, language()),
             plan_.way.legs.back().to, trip::clock_text(s.end)}),
        {edge, line + 8}, wide, words(9.4), 4.4, 3);
  }

  void way(Mm at, double width) {
    page_.text(say(Say::way_title, language()), at, words(11, true));
    double y = at.y + 5.4;
    const Type type = words(8.8), clock{Face::figures_bold, 3.0, ink::night};
    const auto line = [&](const std::string& time, const std::string& what,
                          const std::string& reference) {
      page_.text(time, {at.x, y}, clock);
      page_.text(reference, {at.x + width, y}, {Face::figures, 2.8, ink::text}, Anchor::right);
      page_.fitted(what, {at.x + 13, y}, width - 30, type);
      y += 4.5;
    };
    line(trip::clock_text(plan_.schedule.start), plan_.way.legs.front().from,
         plan_.start_reference);
    const auto legs = plan_.way.legs.size();
    const std::size_t room = 13;
    for (std::size_t i = 0; i < legs; ++i) {
      if (legs > room && i >= room - 2 && i + 1 < legs) {
        if (i == room - 2) line("…", "…", "");
        continue;
      }
      line(trip::clock_text(plan_.schedule.legs[i].arrive), plan_.way.legs[i].to,
           plan_.references[i]);
    }
  }

  void party(Mm at, double width) {
    const auto& t = plan_.trip;
    page_.text(say(Say::party_title, language()), at, words(11, true));
    double y = at.y + 5.4;
    const auto row = [&](Say name, const std::string& value) {
      page_.fitted(say(name, language()), {at.x, y}, 21, words(8.4));
      y = page_.paragraph(value.empty() ? "______________________________" : value, {at.x + 22, y},
                          width - 22, words(8.8, true), 4.1, 3) +
          0.5;
    };
    std::string members;
    for (const auto& m : t.members) members += (members.empty() ? "" : ", ") + m;
    row(Say::leader, t.leader.name.empty() ? "" : t.leader.name + " " + t.leader.phone);
    row(Say::members, members);
    row(Say::transport, t.transport);
    row(Say::gear, t.gear);
    row(Say::medical, t.medical);
    row(Say::number, t.emergency_number);
    std::string first;
    const Leg* least = nullptr;
    for (const auto& leg : plan_.way.legs) {
      if (leg.sureness && leg.sureness->fix_at_end &&
          (least == nullptr || leg.sureness->certainty < least->sureness->certainty))
        least = &leg;
    }
    if (least != nullptr) {
      page_.paragraph(
          say(Say::look_first, language(), {fmt::format("{} → {}", least->from, least->to)}),
          {at.x, y + 0.5}, width, words(8.8), 4.1, 2);
    }
  }

  void map(Mm at, Mm size) {
    MapFrame f;
    f.at = {at.x, at.y + 4};
    f.w = size.x;
    f.h = size.y - 4;
    double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
    for (const auto& leg : plan_.way.legs) {
      for (const auto& p : leg.line) {
        west = std::min(west, p.east_m);
        east = std::max(east, p.east_m);
        south = std::min(south, p.north_m);
        north = std::max(north, p.north_m);
      }
    }
    for (const double s : {25000.0, 50000.0, 75000.0, 100000.0, 150000.0, 250000.0, 500000.0,
                           1000000.0, 2500000.0}) {
      f.scale = s;
      if (f.mm(east - west) < f.w - 14 && f.mm(north - south) < f.h - 14) break;
    }
    f.south_west = {0.5 * (west + east) - 0.5 * f.metres(f.w),
                    0.5 * (south + north) - 0.5 * f.metres(f.h)};
    page_.text(say(Say::map_title, language(), {thousands(f.scale)}), {at.x, at.y + 2},
               words(9, true));
    Labels labels({f.at.x, f.at.y, f.at.x + f.w, f.at.y + f.h});
    page_.clip(f.at.x, f.at.y, f.w, f.h);
    draw_ground(page_, labels, f, ground_, 2 * contour_interval_m(f.scale), true);
    const Pen way{ink::night, 0.8, {}, true};
    for (const auto& leg : plan_.way.legs) {
      std::vector<Mm> line;
      for (const auto& p : leg.line) line.push_back(f.on_page(p));
      page_.stroke(line, {ink::paper, 1.8, {}, true});
      page_.stroke(line, way);
    }
    const auto mark = [&](earth::GridPoint p, const std::string& name) {
      const Mm m = f.on_page(p);
      page_.fill({circle(m, 0.9)}, ink::night);
      (void)name_beside(page_, labels, name, m, 1.6, {Face::words_bold, 2.8, ink::night, 0.8});
    };
    mark(plan_.way.legs.front().line.front(), plan_.way.legs.front().from);
    for (const auto& point : plan_.trip.request.points) {
      if (&point != &plan_.trip.request.points.front() && !point.name.empty())
        mark(point.at, point.name);
    }
    page_.unclip();
    page_.frame(f.at.x, f.at.y, f.w, f.h, {ink::text, 0.3});
  }

  using Leg = walking::Leg;
  const trip::Plan& plan_;
  const walking::Ground& ground_;
  Page page_;
};

}  // namespace

Drawing draw_home_note(const trip::Plan& plan, const walking::Ground& ground,
                       const TextMeasure& measure) {
  return Note(plan, ground, measure).draw();
}

std::vector<Drawing> draw_escape_card(const trip::Plan& plan, const TextMeasure& measure) {
  const auto language = plan.trip.language;
  constexpr std::size_t legs_a_side = 12;
  const std::size_t sides = (plan.way.legs.size() + legs_a_side - 1) / legs_a_side;
  std::vector<Drawing> out;
  for (std::size_t s = 0; s < sides; ++s) {
    Page page(210, 148, plan.trip.name, measure);
    page.fitted(fmt::format("{} · {}", say(Say::escape_title, language), plan.trip.name), {8, 12},
                150, words(14, true));
    page.text(plan.trip.emergency_number.empty() ? "________" : plan.trip.emergency_number,
              {202, 12}, {Face::figures_bold, 6, ink::night}, Anchor::right);
    double y = 17;
    for (std::size_t i = s * legs_a_side; i < std::min(plan.way.legs.size(), (s + 1) * legs_a_side);
         ++i) {
      const auto& leg = plan.way.legs[i];
      page.stroke({{8, y}, {202, y}}, {ink::rule, 0.2});
      page.box(8, y + 1, 8, 7, ink::night);
      page.text(std::to_string(i + 1), {12, y + 6}, {Face::figures_bold, 4, ink::paper},
                Anchor::middle);
      page.fitted(fmt::format("{} → {}", leg.from, leg.to), {19, y + 6}, 62, words(9.5));
      if (leg.way_off) {
        page.text(fmt::format("{:.0f} min", leg.way_off->minutes), {104, y + 6},
                  {Face::figures_bold, 4.2, ink::night}, Anchor::right);
        page.fitted(leg.way_off->words, {108, y + 6}, 94, words(9.5));
      } else {
        page.fitted(say(Say::escape_none, language), {108, y + 6}, 94, words(9));
      }
      y += 9;
    }
    page.stroke({{8, y}, {202, y}}, {ink::rule, 0.2});
    const auto signal =
        plan.trip.signals == trip::SignalRegion::alpine ? Say::signal_alpine : Say::signal_america;
    y = page.paragraph(say(signal, language), {8, std::max(y + 5, 132.0)}, 194, words(8.6, true),
                       3.9, 2);
    page.paragraph(say(Say::escape_caution, language), {8, y}, 194, words(8), 3.6, 2);
    out.push_back(page.take());
  }
  return out;
}

}  // namespace lodeway::sheet
