#include <algorithm>
#include <cmath>

#include "lodeway/reckoning/judge/doubt_shape.hpp"
#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/map/strokes.hpp"

namespace lodeway::sheet {

namespace {

using Leg = trip::PlannedLeg;
using walking::LegKind;

constexpr double widest_mm = 12;  // wider than that, a shade would hide the map

std::vector<Mm> ring_of(const MapFrame& f, const std::vector<earth::GridPoint>& ring) {
  std::vector<Mm> out;
  for (const auto& p : ring) out.push_back(f.on_page(p));
  return out;
}

double apart_mm(Mm a, Mm b) { return std::hypot(a.x - b.x, a.y - b.y); }

void shade(Page& page, const std::vector<Mm>& ring, double width_mm) {
  if (width_mm < widest_mm) page.fill({ring}, ink::faint(ink::lamp_pale, 0.72));
}

/// Each bearing leg on the map with its doubt: two sigma to each side, for through a turn without a
/// fix the doubt goes on with the party; and the ellipse of a turn, empty where there is a fix.
template <class Each>
void each_doubt(const MapFrame& f, const trip::Plan& plan, const Each& each) {
  const auto& legs = plan.way.legs;
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const auto& leg = legs[i];
    if (leg.course.kind != LegKind::bearing || !f.touches(leg.course.line)) continue;
    each(ring_of(f, reckoning::ribbon(leg, i > 0 ? &legs[i - 1] : nullptr)),
         turn_without_fix(leg) ? ring_of(f, reckoning::end_ellipse(leg)) : std::vector<Mm>{});
  }
}

/// A lit bar along what stops the party, closed at both ends; the ground shows through.
void draw_catching(Page& page, Labels& labels, const MapFrame& f, const Leg& leg, std::size_t i) {
  const auto line = on_page(f, leg.stop->shape, 0.4);
  if (line.size() < 2 || length_mm(line) < 1) return;
  page.stroke(line, {ink::faint(ink::lamp, 0.7), 1.45});
  for (const double side : {-0.73, 0.73}) page.stroke(beside(line, side), {ink::night, 0.16});
  Mm d;
  for (const double end : {0.0, 1.0}) {
    const Mm p = point_at(line, end, d);
    page.stroke({{p.x - 1.5 * d.y, p.y + 1.5 * d.x}, {p.x + 1.5 * d.y, p.y - 1.5 * d.x}},
                {ink::night, 0.45});
  }
  // Away from its leg, a bar says whose it is.
  const Mm middle = point_at(line, 0.5, d), end = walked(f, leg).back();
  if (std::hypot(middle.x - end.x, middle.y - end.y) > 6) {
    (void)name_beside(page, labels, std::to_string(i + 1), middle, 1.3,
                      {Face::figures_bold, 2.2, ink::night, 0.7});
  }
}

}  // namespace

void draw_doubt_shade(Page& page, const MapFrame& f, const trip::Plan& plan) {
  each_doubt(f, plan, [&](const std::vector<Mm>& r, const std::vector<Mm>& ellipse) {
    if (!r.empty()) shade(page, r, std::max(apart_mm(r[0], r[3]), apart_mm(r[1], r[2])));
    double width = 0;  // its corners lie opposite each other
    for (std::size_t i = 0; i < ellipse.size() / 2; ++i)
      width = std::max(width, apart_mm(ellipse[i], ellipse[i + ellipse.size() / 2]));
    if (!ellipse.empty()) shade(page, ellipse, width);
  });
}

void draw_doubt(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  const auto& legs = plan.way.legs;
  each_doubt(f, plan, [&](const std::vector<Mm>& r, const std::vector<Mm>& ellipse) {
    if (!r.empty()) page.strokes({{r[0], r[1]}, {r[3], r[2]}}, {ink::night, 0.18, {0.55, 0.55}});
    if (!ellipse.empty()) page.stroke(ellipse, {ink::night, 0.28}, true);
  });
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const auto& stop = legs[i].stop;
    if (stop && stop->shape.size() > 1 && f.touches(stop->shape))
      draw_catching(page, labels, f, legs[i], i);
  }
}

}  // namespace lodeway::sheet
