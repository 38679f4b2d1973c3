#include "lodeway/sheet/map_legs.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/wording.hpp"

namespace lodeway::sheet {

namespace {

using walking::Leg;
using walking::LegKind;

constexpr double rail_gap_mm = 0.92, widest_ribbon_mm = 12;

std::vector<Mm> on_page(const MapFrame& f, const std::vector<earth::GridPoint>& line,
                        double least = 0.5) {
  std::vector<Mm> out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Mm m = f.on_page(line[i]);
    if (out.empty() || i + 1 == line.size() ||
        std::hypot(m.x - out.back().x, m.y - out.back().y) > least)
      out.push_back(m);
  }
  return out;
}

/// The line moved sideways: right of the direction of travel when `by` is above 0.
std::vector<Mm> beside(const std::vector<Mm>& line, double by) {
  std::vector<Mm> out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Mm a = line[i > 0 ? i - 1 : 0], b = line[std::min(i + 1, line.size() - 1)];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (length == 0) continue;
    out.push_back({line[i].x - by * (b.y - a.y) / length, line[i].y + by * (b.x - a.x) / length});
  }
  return out;
}

Mm point_at(const std::vector<Mm>& line, double share, Mm& direction) {
  double total = 0;
  for (std::size_t i = 1; i < line.size(); ++i)
    total += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  double left = share * total;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Mm v{line[i].x - line[i - 1].x, line[i].y - line[i - 1].y};
    const double length = std::hypot(v.x, v.y);
    if (length > 0 && (left <= length || i + 1 == line.size())) {
      direction = {v.x / length, v.y / length};
      return {line[i - 1].x + left * direction.x, line[i - 1].y + left * direction.y};
    }
    left -= length;
  }
  direction = {1, 0};
  return line.back();
}

/// Where a bearing leg is walked to: its aim when it is aimed off.
std::vector<Mm> walked(const MapFrame& f, const Leg& leg) {
  if (leg.kind == LegKind::bearing && leg.aim_off)
    return {f.on_page(leg.line.front()), f.on_page(leg.aim_off->aim)};
  return on_page(f, leg.line);
}

bool turn_without_fix(const Leg& leg) { return leg.sureness && !leg.sureness->fix_at_end; }

void halo(Page& page, const std::vector<Mm>& line, double width) {
  page.stroke(line, {ink::faint(ink::paper, 0.85), width, {}, true});
}

void draw_fix(Page& page, Mm p) {
  page.stroke(circle(p, 1.55), {ink::paper, 1.3}, true);
  page.stroke(circle(p, 1.55), {ink::night, 0.62}, true);
  page.fill({circle(p, 0.26)}, ink::night);
}

void draw_turn(Page& page, Mm p) {
  const std::vector<Mm> diamond{
      {p.x, p.y - 2.1}, {p.x + 2.1, p.y}, {p.x, p.y + 2.1}, {p.x - 2.1, p.y}};
  page.shape({diamond}, ink::paper, {ink::night, 0.62});
}

void draw_arrow(Page& page, Mm p, Mm d) {
  page.fill({{{p.x + 1.6 * d.x, p.y + 1.6 * d.y},
              {p.x - 0.9 * d.x - 1.1 * d.y, p.y - 0.9 * d.y + 1.1 * d.x},
              {p.x - 0.4 * d.x, p.y - 0.4 * d.y},
              {p.x - 0.9 * d.x + 1.1 * d.y, p.y - 0.9 * d.y - 1.1 * d.x}}},
            ink::night);
}

void hold_line(Labels& labels, const std::vector<Mm>& line, double half) {
  for (double t = 0; t <= 1; t += 0.02) {
    Mm d;
    const Mm p = point_at(line, t, d);
    labels.hold({p.x - half, p.y - half, p.x + half, p.y + half});
  }
}

/// Only where no leg runs: there the leg itself shows the way.
void draw_ways_off(Page& page, const MapFrame& f, const trip::Plan& plan) {
  std::vector<std::vector<Mm>> legs;
  for (const auto& leg : plan.way.legs) {
    if (f.touches(leg.line)) legs.push_back(walked(f, leg));
  }
  const auto beside_leg = [&](Mm p) {
    for (const auto& line : legs) {
      for (std::size_t i = 1; i < line.size(); ++i) {
        const Mm v{line[i].x - line[i - 1].x, line[i].y - line[i - 1].y};
        const double squared = v.x * v.x + v.y * v.y;
        const double along = (p.x - line[i - 1].x) * v.x + (p.y - line[i - 1].y) * v.y;
        const double t = squared > 0 ? std::clamp(along / squared, 0.0, 1.0) : 0.0;
        if (std::hypot(line[i - 1].x + t * v.x - p.x, line[i - 1].y + t * v.y - p.y) < 1.7) {
          return true;
        }
      }
    }
    return false;
  };
  std::vector<std::vector<Mm>> pieces;
  for (const auto& leg : plan.way.legs) {
    if (!leg.way_off || leg.way_off->line.size() < 2 || !f.touches(leg.way_off->line)) continue;
    std::vector<Mm> piece;
    for (const Mm p : on_page(f, leg.way_off->line)) {
      if (!beside_leg(p)) {
        piece.push_back(p);
        continue;
      }
      if (piece.size() > 3) pieces.push_back(piece);
      piece.clear();
    }
    if (piece.size() > 3) pieces.push_back(piece);
  }
  page.strokes(std::move(pieces), {ink::haven, 0.55, {2.2, 1.1}});
}

}  // namespace

void draw_doubt(Page& page, const MapFrame& f, const trip::Plan& plan) {
  for (const auto& leg : plan.way.legs) {
    if (leg.kind != LegKind::bearing || !leg.sureness || !f.touches(leg.line)) continue;
    const auto line = walked(f, leg);
    Mm d;
    const Mm a = point_at(line, 0, d), b = point_at(line, 1, d);
    const double end = f.mm(2 * leg.sureness->cross_sigma_m), start = std::min(0.8, end);
    const std::vector<Mm> left{{a.x + start * d.y, a.y - start * d.x},
                               {b.x + end * d.y, b.y - end * d.x}};
    const std::vector<Mm> right{{b.x - end * d.y, b.y + end * d.x},
                                {a.x - start * d.y, a.y + start * d.x}};
    if (2 * end < widest_ribbon_mm)
      page.fill({{left[0], left[1], right[0], right[1]}}, ink::faint(ink::lamp_pale, 0.6));
    page.strokes({left, right}, {ink::night, 0.18, {0.55, 0.55}});
  }
  for (const auto& leg : plan.way.legs) {
    if (!leg.stop || leg.stop->shape.size() < 2 || !f.touches(leg.stop->shape)) continue;
    const auto line = on_page(f, leg.stop->shape);
    page.stroke(line, {ink::night, 1.75});
    page.stroke(line, {ink::lamp, 1.15});
  }
}

void draw_legs(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  draw_ways_off(page, f, plan);
  for (const auto& leg : plan.way.legs) {
    if (!f.touches(leg.line)) continue;
    const auto line = walked(f, leg);
    if (leg.kind == LegKind::along) {
      for (const double side : {-rail_gap_mm, rail_gap_mm}) {
        const auto rail = beside(line, side);
        halo(page, rail, 0.95);
        page.stroke(rail, {ink::night, 0.42, {}, true});
      }
      hold_line(labels, line, 1.4);
      continue;
    }
    halo(page, line, 1.65);
    page.stroke(line, {ink::night, 0.75});
    Mm d;
    const Mm middle = point_at(line, 0.5, d);
    draw_arrow(page, middle, d);
    hold_line(labels, line, 1.0);
    if (leg.aim_off) {
      const Mm aim = line.back(), end = f.on_page(leg.line.back());
      page.stroke({{aim.x - 1.6 * d.y, aim.y + 1.6 * d.x}, {aim.x + 1.6 * d.y, aim.y - 1.6 * d.x}},
                  {ink::night, 0.60});
      page.stroke({aim, end}, {ink::night, 0.42, {0.8, 0.6}});
    }
  }
  for (std::size_t i = 0; i <= plan.way.legs.size(); ++i) {
    const auto& at = i == 0 ? plan.way.legs.front().line.front() : plan.way.legs[i - 1].line.back();
    if (!f.near(at)) continue;
    const Mm p = f.on_page(at);
    if (i > 0 && turn_without_fix(plan.way.legs[i - 1])) {
      draw_turn(page, p);
    } else {
      draw_fix(page, p);
    }
    labels.hold({p.x - 2.2, p.y - 2.2, p.x + 2.2, p.y + 2.2});
  }
}

void draw_leg_tags(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  const Type number{Face::figures_bold, 3.1, ink::paper},
      bearing{Face::figures_bold, 3.1, ink::night, 0.8}, small{Face::figures, 2.3, ink::night, 0.7};
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& leg = plan.way.legs[i];
    if (!f.touches(leg.line)) continue;
    const auto line = walked(f, leg);
    const auto words = std::to_string(i + 1);
    const double wide = std::max(4.1, page.width(words, number) + 1.6);
    const bool needle = leg.kind == LegKind::bearing;
    const auto angle = needle ? bearing_text(leg.magnetic_bearing, plan.trip.angles) +
                                    bearing_sign(plan.trip.angles)
                              : std::string();
    const auto length =
        needle ? fmt::format(
                     "{:.0f} mm",
                     f.mm(mapdata::length_m(
                         {leg.line.front(), leg.aim_off ? leg.aim_off->aim : leg.line.back()})))
               : std::string();
    const double beside_w =
        needle ? std::max(page.width(angle, bearing), page.width(length, small)) + 0.8 : 0;
    bool set = false;
    for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}) {
      for (const double off : {4.2, -4.2, 6.0, -6.0, 8.5, -8.5, 12.0, -12.0}) {
        Mm d;
        const Mm m = point_at(line, share, d);
        const Mm c{m.x - off * d.y, m.y + off * d.x};
        const double x0 = c.x - 0.5 * (wide + beside_w);
        const Room room{x0 - 0.4, c.y - 2.4, x0 + wide + beside_w + 0.4,
                        c.y + (needle ? 4.6 : 2.4)};
        if (set || !labels.take(room)) continue;
        if (std::abs(off) > 6) page.stroke({m, c}, {ink::night, 0.2});
        page.box(x0, c.y - 2.05, wide, 4.1, ink::night);
        page.text(words, {x0 + 0.5 * wide, c.y + 1.12}, number, Anchor::middle);
        if (needle) {
          page.text(angle, {x0 + wide + 0.8, c.y + 1.1}, bearing);
          page.text(length, {x0 + wide + 0.8, c.y + 4.0}, small);
        }
        set = true;
      }
    }
    if (!set) {  // no room at all: the number alone, on the leg's middle
      Mm d;
      const Mm m = point_at(line, 0.5, d);
      page.box(m.x - 0.5 * wide, m.y - 2.05, wide, 4.1, ink::night);
      page.text(words, {m.x, m.y + 1.12}, number, Anchor::middle);
    }
  }
}

}  // namespace lodeway::sheet
