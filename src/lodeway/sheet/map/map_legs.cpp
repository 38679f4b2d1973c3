#include "lodeway/sheet/map/map_legs.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <optional>

#include "lodeway/sheet/draw/verdict_band.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/leg_notes.hpp"

namespace lodeway::sheet {

namespace {

using Leg = trip::PlannedLeg;
using walking::LegKind;

constexpr double rail_gap_mm = 0.92, plan_point_mm = 0.5;

void halo(Page& page, const std::vector<Mm>& line, double width) {
  page.stroke(line, {ink::faint(ink::paper, 0.85), width, {}, true});
}

void draw_fix(Page& page, Mm p) {
  page.stroke(circle(p, 1.55), {ink::paper, 1.3}, true);
  page.stroke(circle(p, 1.55), {ink::night, 0.62}, true);
  page.fill({circle(p, 0.26)}, ink::night);
}

/// A fix from which a fine leg starts: four strokes outside the ring.
void draw_attack_point(Page& page, Mm p) {
  draw_fix(page, p);
  std::vector<std::vector<Mm>> strokes;
  for (const auto& d : {Mm{0.707, 0.707}, Mm{-0.707, 0.707}, Mm{0.707, -0.707}, Mm{-0.707, -0.707}})
    strokes.push_back({{p.x + 1.8 * d.x, p.y + 1.8 * d.y}, {p.x + 2.9 * d.x, p.y + 2.9 * d.y}});
  page.strokes(strokes, {ink::paper, 1.2, {}, true});
  page.strokes(std::move(strokes), {ink::night, 0.62});
}

void draw_turn(Page& page, Mm p) {
  const std::vector<Mm> diamond{
      {p.x, p.y - 2.1}, {p.x + 2.1, p.y}, {p.x, p.y + 2.1}, {p.x - 2.1, p.y}};
  page.stroke(diamond, {ink::paper, 1.4}, true);
  page.stroke(diamond, {ink::night, 0.62}, true);
}

void draw_arrow(Page& page, Mm p, Mm d, double size = 1) {
  page.fill({{{p.x + 1.6 * size * d.x, p.y + 1.6 * size * d.y},
              {p.x - size * (0.9 * d.x + 1.1 * d.y), p.y - size * (0.9 * d.y - 1.1 * d.x)},
              {p.x - 0.4 * size * d.x, p.y - 0.4 * size * d.y},
              {p.x - size * (0.9 * d.x - 1.1 * d.y), p.y - size * (0.9 * d.y + 1.1 * d.x)}}},
            ink::night);
}

void hold_line(Labels& labels, const std::vector<Mm>& line, double half) {
  each_step(line, 1.4,
            [&](Mm p, Mm) { labels.hold({p.x - half, p.y - half, p.x + half, p.y + half}); });
}

/// Of each escape route its legs in one; none where the party stands on safe ground.
std::vector<std::vector<earth::GridPoint>> escape_lines(const trip::Plan& plan) {
  std::vector<std::vector<earth::GridPoint>> out;
  for (const auto& leg : plan.way.legs) {
    for (const auto& route : leg.escapes) {
      auto line = trip::line_of(route);
      // What ends one leg begins the next.
      if (line.size() > 1 && (out.empty() || out.back() != line)) out.push_back(std::move(line));
    }
  }
  return out;
}

void draw_haven(Page& page, Mm p) {
  page.stroke(circle(p, 1.9), {ink::paper, 1.3}, true);
  page.stroke(circle(p, 2.1), {ink::haven, 0.55}, true);
  page.stroke(circle(p, 1.4), {ink::haven, 0.22}, true);
}

/// Dashes with chevrons that point off the hill.
void draw_escape_strokes(Page& page, std::vector<std::vector<Mm>> pieces) {
  std::vector<std::vector<Mm>> chevrons;
  for (const auto& piece : pieces) {
    each_step(piece, 8, [&](Mm p, Mm d) {
      for (const double back : {0.0, 1.0}) {
        for (const int side : {-1, 1})
          chevrons.push_back({{p.x - (back + 0.9) * d.x - side * 1.0 * d.y,
                               p.y - (back + 0.9) * d.y + side * 1.0 * d.x},
                              {p.x - back * d.x, p.y - back * d.y}});
      }
    });
  }
  for (const auto& piece : pieces) halo(page, piece, 1.0);
  page.strokes(std::move(pieces), {ink::haven, 0.55, {2.2, 1.1}});
  page.strokes(std::move(chevrons), {ink::haven, 0.45});
}

/// Safe ground has a double smooth edge: the leader's own places, and where ways off end.
void draw_havens(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  std::vector<Mm> set;
  // Where a leg starts or ends the fix's own mark stands.
  for (const auto& leg : plan.way.legs) {
    set.push_back(f.on_page(leg.course.line.front()));
    set.push_back(f.on_page(leg.course.line.back()));
  }
  const auto draw = [&](earth::GridPoint at) {
    const Mm p = f.on_page(at);
    if (!f.near(at) ||
        std::ranges::any_of(set, [&](Mm s) { return std::hypot(s.x - p.x, s.y - p.y) < 6; }))
      return;
    set.push_back(p);
    draw_haven(page, p);
    labels.hold({p.x - 2.5, p.y - 2.5, p.x + 2.5, p.y + 2.5});
  };
  for (const auto& place : plan.trip.request.safe) draw(place.at);
  for (const auto& line : escape_lines(plan)) draw(line.back());
}

/// Only where no leg runs: there the leg itself shows the way; joined to the leg where they leave
/// it. Chevrons point off the hill.
void draw_escapes(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  const auto legs = legs_on_page(f, plan);
  std::vector<std::vector<Mm>> pieces;
  for (const auto& line : escape_lines(plan)) {
    if (!f.touches(line)) continue;
    std::vector<Mm> piece, on_leg;
    const auto keep = [&] {
      // Many escape routes end on the same line: it is drawn once.
      if (piece.size() > 1 && length_mm(piece) > 3 &&
          std::ranges::none_of(pieces, [&](const auto& other) {
            Mm d;
            return distance_mm(point_at(piece, 0.5, d), other) < 0.4;
          }))
        pieces.push_back(piece);
      piece.clear();
    };
    for (const Mm p : on_page(f, line, plan_point_mm)) {
      const bool beside_leg =
          std::ranges::any_of(legs, [&](const auto& of) { return distance_mm(p, of) < 1.7; });
      if (beside_leg) {
        if (!piece.empty()) piece.push_back(p);
        keep();
        on_leg = {p};
      } else {
        if (piece.empty()) piece = on_leg;
        piece.push_back(p);
      }
    }
    keep();
  }
  for (const auto& piece : pieces) hold_line(labels, piece, 0.7);
  draw_havens(page, labels, f, plan);
  draw_escape_strokes(page, std::move(pieces));
}

std::optional<Mm> tick_place(const MapFrame& f, const Leg& leg, const walking::Tick& tick,
                             const std::vector<Mm>& line, Mm& d) {
  if (!(leg.figures.length_m > 0) || !(length_mm(line) > 0)) return {};
  const Mm p = point_at(line, std::clamp(tick.at_m / leg.figures.length_m, 0.0, 1.0), d);
  return f.near(f.on_ground(p), -1) ? std::optional(p) : std::nullopt;
}

void draw_tick(Page& page, Mm p, Mm d, double side) {
  const Mm c{p.x - side * 3.0 * d.y, p.y + side * 3.0 * d.x};
  page.stroke({{p.x - side * 0.5 * d.y, p.y + side * 0.5 * d.x},
               {p.x - side * 2.2 * d.y, p.y + side * 2.2 * d.x}},
              {ink::night, 0.3});
  page.stroke({{c.x - 0.75, c.y - 0.75},
               {c.x + 0.75, c.y - 0.75},
               {c.x + 0.75, c.y + 0.75},
               {c.x - 0.75, c.y + 0.75}},
              {ink::paper, 0.9}, true);
  page.frame(c.x - 0.75, c.y - 0.75, 1.5, 1.5, {ink::night, 0.32});
}

/// The card's box beside the line, a hair from it to the place.
void draw_ticks(Page& page, Labels& labels, const MapFrame& f, const Leg& leg,
                const std::vector<Mm>& line) {
  for (const auto& tick : leg.ticks) {
    Mm d;
    const auto p = tick_place(f, leg, tick, line, d);
    if (!p) continue;
    const double side = tick.side == mapdata::Side::left ? -1 : 1;
    draw_tick(page, *p, d, side);
    const Mm c{p->x - side * 3.0 * d.y, p->y + side * 3.0 * d.x};
    labels.hold({c.x - 1, c.y - 1, c.x + 1, c.y + 1});
  }
}

/// A bar across the line of going at the aim, and which way to turn there.
void draw_aim(Page& page, const MapFrame& f, const Leg& leg, Mm d) {
  const Mm aim = f.on_page(leg.needle->aim), end = f.on_page(leg.course.line.back());
  page.stroke({{aim.x - 1.6 * d.y, aim.y + 1.6 * d.x}, {aim.x + 1.6 * d.y, aim.y - 1.6 * d.x}},
              {ink::night, 0.60});
  const double far = std::hypot(end.x - aim.x, end.y - aim.y);
  if (far < 2.4) return;
  const Mm to{(end.x - aim.x) / far, (end.y - aim.y) / far};
  // On the side the party comes from, so that the line it meets stays in view.
  const double come = d.x * -to.y + d.y * to.x > 0 ? -1 : 1;
  const Mm side{-come * to.y * 1.3, come * to.x * 1.3};
  const double length = std::min(far - 1.6, 5.0);
  const Mm from{aim.x + 0.6 * to.x + side.x, aim.y + 0.6 * to.y + side.y};
  const Mm tip{from.x + length * to.x, from.y + length * to.y};
  page.stroke({from, tip}, {ink::paper, 1.3});
  page.stroke({from, tip}, {ink::night, 0.55});
  draw_arrow(page, tip, to, 0.7);
}

void draw_leg(Page& page, Labels& labels, const MapFrame& f, const Leg& leg) {
  const auto line = walked(f, leg);
  if (leg.course.kind == LegKind::along) {
    for (const double side : {-rail_gap_mm, rail_gap_mm}) {
      const auto rail = beside(line, side);
      halo(page, rail, 0.95);
      page.stroke(rail, {ink::night, 0.42, {}, true});
    }
    hold_line(labels, line, 1.4);
  } else {
    halo(page, line, 1.65);
    page.stroke(line, {ink::night, 0.75});
    Mm d;
    for (const auto& piece : pieces_inside(line, f.at, {f.at.x + f.w, f.at.y + f.h})) {
      const Mm middle = point_at(piece, 0.5, d);
      draw_arrow(page, middle, d);
    }
    hold_line(labels, line, 1.0);
    if (leg.after) {
      (void)point_at(line, 1, d);
      draw_aim(page, f, leg, d);
    }
  }
  draw_ticks(page, labels, f, leg, line);
}

/// The end before leg i: an attack point when a handrail brings the party there and a bearing leg
/// to something small starts from it.
bool attack_point(const std::vector<Leg>& legs, std::size_t i) {
  return i > 0 && i < legs.size() && trip::ends_at_attack_point(legs[i - 1], legs[i]);
}

/// What stands where leg i begins, or the last one ends.
PlanSign mark_at(const std::vector<Leg>& legs, std::size_t i) {
  if (i > 0 && i < legs.size() && turn_without_fix(legs[i - 1])) return PlanSign::turn;
  return attack_point(legs, i) ? PlanSign::attack_point : PlanSign::place;
}

bool outside_limits(const trip::Plan& plan, std::size_t leg) {
  return std::ranges::any_of(plan.verdict.reasons, [&](const trip::Reason& r) {
    return r.leg == static_cast<int>(leg) && r.band == trip::Band::outside;
  });
}

struct TagWords {
  std::string number, angle, length;
};

TagWords tag_words(const trip::Plan& plan, std::size_t i) {
  const auto& leg = plan.way.legs[i];
  TagWords out{std::to_string(i + 1), "", ""};
  if (!leg.needle) return out;
  out.angle = bearing_text(leg.needle->magnetic, plan.trip.angles) + bearing_sign(plan.trip.angles);
  out.length = std::to_string(std::lround(leg.needle->map_mm)) + " mm";
  return out;
}

}  // namespace

std::vector<Mm> walked(const MapFrame& f, const Leg& leg) {
  if (leg.needle) return {f.on_page(leg.course.line.front()), f.on_page(leg.needle->aim)};
  return on_page(f, leg.course.line, plan_point_mm);
}

bool turn_without_fix(const Leg& leg) { return !leg.judged.fix_at_end; }

std::vector<std::vector<Mm>> legs_on_page(const MapFrame& f, const trip::Plan& plan) {
  std::vector<std::vector<Mm>> out;
  for (const auto& leg : plan.way.legs) {
    if (f.touches(leg.course.line)) out.push_back(walked(f, leg));
  }
  return out;
}

void draw_legs(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  const auto& legs = plan.way.legs;
  draw_escapes(page, labels, f, plan);
  for (const auto& leg : legs) {
    if (f.touches(leg.course.line)) draw_leg(page, labels, f, leg);
  }
  for (std::size_t i = 0; i <= legs.size(); ++i) {
    const auto& at = i == 0 ? legs.front().course.line.front() : legs[i - 1].course.line.back();
    if (!f.near(at)) continue;
    const Mm p = f.on_page(at);
    draw_sign(page, p, mark_at(legs, i));
    labels.hold({p.x - 2.2, p.y - 2.2, p.x + 2.2, p.y + 2.2});
  }
}

void draw_leg_tags(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  const Type number{Face::figures_bold, 3.3, ink::paper},
      bearing{Face::figures_bold, 3.1, ink::night, 0.8}, small{Face::figures, 2.3, ink::night, 0.7};
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& leg = plan.way.legs[i];
    if (!f.touches(leg.course.line, 0)) continue;
    // On each sheet the tag stands by the longest piece that the sheet shows.
    auto pieces = pieces_inside(walked(f, leg), f.at, {f.at.x + f.w, f.at.y + f.h});
    if (pieces.empty()) continue;
    const auto line = *std::ranges::max_element(pieces, {}, length_mm);
    const auto words = tag_words(plan, i);
    const double wide = std::max(4.1, page.width(words.number, number) + 1.6);
    const bool needle = !words.angle.empty();
    const double beside_w =
        needle ? std::max(page.width(words.angle, bearing), page.width(words.length, small)) + 0.8
               : 0;
    // A leg outside the limits has the frame that it has on the card.
    const double rim = outside_limits(plan, i) ? 1.6 : 0;
    const auto draw = [&](double x0, double y) {
      if (rim > 0) {
        page.box(x0 - rim, y - 2.05 - rim, wide + 2 * rim, 4.1 + 2 * rim, ink::paper);
        danger_frame(page, x0 - rim, y - 2.05 - rim, wide + 2 * rim, 4.1 + 2 * rim);
      }
      page.box(x0, y - 2.05, wide, 4.1, ink::night);
      page.text(words.number, {x0 + 0.5 * wide, y + 1.18}, number, Anchor::middle);
    };
    const auto place = [&](double share, double off) {
      Mm d;
      const Mm m = point_at(line, share, d);
      // As far to the side as the tag is wide there, so that it clears the line it names.
      const double reach = std::abs(d.y) * 0.5 * (wide + beside_w) + std::abs(d.x) * 2.4 + rim;
      const double away = std::copysign(std::abs(off) + reach, off);
      const Mm c{m.x - away * d.y, m.y + away * d.x};
      const double x0 = c.x - 0.5 * (wide + beside_w);
      const Room room{x0 - 0.4 - rim, c.y - 2.4 - rim, x0 + wide + beside_w + 0.4 + rim,
                      c.y + std::max(needle ? 4.6 : 2.4, 2.4 + rim)};
      if (!labels.take(room)) return false;
      if (std::abs(off) > 5) page.stroke({m, {c.x, c.y}}, {ink::night, 0.2});
      draw(x0, c.y);
      if (needle) {
        page.text(words.angle, {x0 + wide + 0.8 + rim, c.y + 1.1}, bearing);
        page.text(words.length, {x0 + wide + 0.8 + rim, c.y + 4.0}, small);
      }
      return true;
    };
    bool set = false;
    for (const double off :
         {1.9, -1.9, 3.4, -3.4, 5.5, -5.5, 8.0, -8.0, 11.0, -11.0, 15.0, -15.0}) {
      for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}) set = set || place(share, off);
    }
    if (!set) {  // no room at all: the number alone, on the leg's middle
      Mm d;
      const Mm m = point_at(line, 0.5, d);
      draw(m.x - 0.5 * wide, m.y);
      labels.hold({m.x - 0.5 * wide, m.y - 2.05, m.x + 0.5 * wide, m.y + 2.05});
    }
  }
}

void draw_sign(Page& page, Mm at, PlanSign sign) {
  switch (sign) {
    case PlanSign::place:
      return draw_fix(page, at);
    case PlanSign::attack_point:
      return draw_attack_point(page, at);
    case PlanSign::turn:
      return draw_turn(page, at);
    case PlanSign::tick_off:  // its box at the place
      return draw_tick(page, {at.x, at.y - 3.0}, {1, 0}, 1);
    case PlanSign::escape: {
      const std::vector<Mm> line{{at.x - 5, at.y}, {at.x + 5, at.y}};
      return draw_escape_strokes(page, {line});
    }
    case PlanSign::safe_ground:
      return draw_haven(page, at);
  }
}

std::array<bool, plan_sign_count> signs_on_map(const Page& page, const MapFrame& f,
                                               const trip::Plan& plan) {
  std::array<bool, plan_sign_count> out{};
  const auto mark = [&](PlanSign sign) { out[static_cast<std::size_t>(sign)] = true; };
  const auto& legs = plan.way.legs;
  for (std::size_t i = 0; i <= legs.size() && !legs.empty(); ++i) {
    const auto& at = i == 0 ? legs.front().course.line.front() : legs[i - 1].course.line.back();
    if (f.near(at)) mark(mark_at(legs, i));
  }
  for (const auto& leg : legs) {
    const auto line = walked(f, leg);
    Mm d;
    if (std::ranges::any_of(leg.ticks, [&](const walking::Tick& tick) {
          return tick_place(f, leg, tick, line, d).has_value();
        }))
      mark(PlanSign::tick_off);
  }
  for (const auto& command : page.drawing().commands) {
    const auto* path = std::get_if<PathCommand>(&command);
    if (path == nullptr || !(path->width_mm > 0) || !(path->stroke == ink::haven)) continue;
    const bool inside = std::ranges::any_of(path->rings, [&](const std::vector<Mm>& ring) {
      return std::ranges::any_of(ring, [&](Mm p) { return f.near(f.on_ground(p)); });
    });
    if (!inside) continue;
    if (!path->dash_mm.empty()) mark(PlanSign::escape);
    if (path->closed) mark(PlanSign::safe_ground);
  }
  return out;
}

}  // namespace lodeway::sheet
