#include <algorithm>
#include <cmath>

#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/map/strokes.hpp"

namespace lodeway::sheet {

namespace {

using Leg = trip::PlannedLeg;
using walking::LegKind;

constexpr double widest_ribbon_mm = 12, narrowest_mm = 0.8;
// Half axes of the ellipse that holds 95 of 100, in sigmas: the root of chi-square's 0.95 quantile
// for two dimensions, 5.991 (any table of chi-square).
const double sigmas_of_95 = std::sqrt(5.991);

/// Sigma across a direction on the page, millimetres; x east, y south.
double across_mm(const MapFrame& f, const reckoning::Judged& s, Mm d) {
  const double east = -d.y, north = -d.x;  // a quarter turn: page y is south
  const double variance = east * east * s.at_end.xx + 2 * east * north * s.at_end.xy +
                          north * north * s.at_end.yy;
  return f.mm(std::sqrt(std::max(0.0, variance)));
}

bool has_covariance(const reckoning::Judged& s) { return s.at_end.xx + s.at_end.yy > 0; }

/// Two sigma to each side; through a turn without a fix the doubt goes on with the party.
void draw_ribbon(Page& page, const MapFrame& f, const Leg& leg, const Leg* before) {
  const auto line = walked(f, leg);
  Mm d;
  const Mm a = point_at(line, 0, d), b = point_at(line, 1, d);
  const auto& s = leg.judged;
  const double end =
      2 * (turn_without_fix(leg) && has_covariance(s) ? across_mm(f, s, d) : f.mm(s.cross_sigma_m));
  double start = std::min(narrowest_mm, end);
  if (before != nullptr && turn_without_fix(*before) && has_covariance(before->judged))
    start = std::max(start, 2 * across_mm(f, before->judged, d));
  const Mm left_a{a.x + start * d.y, a.y - start * d.x}, left_b{b.x + end * d.y, b.y - end * d.x};
  const Mm right_a{a.x - start * d.y, a.y + start * d.x}, right_b{b.x - end * d.y, b.y + end * d.x};
  if (2 * std::max(start, end) < widest_ribbon_mm)
    page.fill({{left_a, left_b, right_b, right_a}}, ink::faint(ink::lamp_pale, 0.72));
  page.strokes({{left_a, left_b}, {right_a, right_b}}, {ink::night, 0.18, {0.55, 0.55}});
}

void draw_ellipse(Page& page, const MapFrame& f, const Leg& leg) {
  const auto& s = leg.judged;
  if (!has_covariance(s)) return;
  const double half = 0.5 * (s.at_end.xx + s.at_end.yy),
               root = std::hypot(0.5 * (s.at_end.xx - s.at_end.yy), s.at_end.xy);
  const double turn = 0.5 * std::atan2(2 * s.at_end.xy, s.at_end.xx - s.at_end.yy);
  const double major = f.mm(sigmas_of_95 * std::sqrt(half + root)),
               minor = f.mm(sigmas_of_95 * std::sqrt(std::max(0.0, half - root)));
  const Mm c = walked(f, leg).back();
  auto ring = circle({0, 0}, 1);
  for (Mm& p : ring) {
    const double u = major * p.x, v = minor * p.y;
    p = {c.x + u * std::cos(turn) - v * std::sin(turn),
         c.y - u * std::sin(turn) - v * std::cos(turn)};
  }
  if (2 * major < widest_ribbon_mm) page.fill({ring}, ink::faint(ink::lamp_pale, 0.72));
  page.stroke(std::move(ring), {ink::night, 0.28}, true);
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

void draw_doubt(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan) {
  const auto& legs = plan.way.legs;
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const auto& leg = legs[i];
    if (leg.course.kind != LegKind::bearing || !f.touches(leg.course.line)) continue;
    draw_ribbon(page, f, leg, i > 0 ? &legs[i - 1] : nullptr);
    if (turn_without_fix(leg)) draw_ellipse(page, f, leg);
  }
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const auto& stop = legs[i].stop;
    if (stop && stop->shape.size() > 1 && f.touches(stop->shape))
      draw_catching(page, labels, f, legs[i], i);
  }
}

}  // namespace lodeway::sheet
