#include "lodeway/sheet/map_margin.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/sheet/wording.hpp"

namespace lodeway::sheet {

namespace {

constexpr double meridian_every_mm = 40;

double grid_step_m(double scale) { return scale > 150000 ? 10000 : 1000; }

/// Calls use(value, position on the page) for each grid line.
template <class Use>
void each_easting(const MapFrame& f, Use&& use) {
  const double step = grid_step_m(f.scale);
  for (double e = std::ceil(f.south_west.east_m / step) * step; e <= f.east_m(); e += step)
    use(e, f.on_page({e, f.south_west.north_m}).x);
}
template <class Use>
void each_northing(const MapFrame& f, Use&& use) {
  const double step = grid_step_m(f.scale);
  for (double n = std::ceil(f.south_west.north_m / step) * step; n <= f.north_m(); n += step)
    use(n, f.on_page({f.south_west.east_m, n}).y);
}

std::string two_figures(double m) { return fmt::format("{:02}", std::lround(m / 1000) % 100); }

}  // namespace

void draw_grid(Page& page, const MapFrame& f) {
  std::vector<std::vector<Mm>> lines;
  each_easting(f, [&](double, double x) { lines.push_back({{x, f.at.y}, {x, f.at.y + f.h}}); });
  each_northing(f, [&](double, double y) { lines.push_back({{f.at.x, y}, {f.at.x + f.w, y}}); });
  page.strokes(std::move(lines), {ink::rule, 0.15});
}

void draw_meridians(Page& page, const MapFrame& f, const trip::Norths& norths) {
  const double lean = std::tan(norths.grid_magnetic_deg * std::numbers::pi / 180);
  if (std::abs(norths.grid_magnetic_deg) > 80)
    return;  // near a magnetic pole a line would run across
  const Pen pen{ink::text, 0.15, {6, 1.2}};
  for (double x = f.at.x - f.h * std::abs(lean); x < f.at.x + f.w + f.h * std::abs(lean);
       x += meridian_every_mm) {
    const Mm foot{x, f.at.y + f.h}, head{x + f.h * lean, f.at.y};
    page.stroke({foot, head}, pen);
    if (head.x > f.at.x + 3 && head.x < f.at.x + f.w - 3) {
      const Mm tip{head.x - 1.5 * lean, head.y + 1.5};
      page.fill({{{tip.x, tip.y},
                  {tip.x - 3.6 * lean, tip.y + 3.6},
                  {tip.x - 3.6 * lean - 1.0, tip.y + 3.6}}},
                ink::text);
    }
  }
}

void draw_border(Page& page, const MapFrame& f, const trip::Plan& plan,
                 const walking::Ground& ground, const SheetFacts& facts) {
  const auto language = plan.trip.language;
  page.frame(f.at.x, f.at.y, f.w, f.h, {ink::text, 0.5});
  const Type figure{Face::figures_bold, 3.0, ink::text};
  each_easting(f, [&](double e, double x) {
    if (x < f.at.x + 4 || x > f.at.x + f.w - 4) return;
    page.text(two_figures(e), {x, f.at.y - 1.2}, figure, Anchor::middle);
    page.text(two_figures(e), {x, f.at.y + f.h + 3.6}, figure, Anchor::middle);
  });
  each_northing(f, [&](double n, double y) {
    if (y < f.at.y + 4 || y > f.at.y + f.h - 4) return;
    page.text(two_figures(n), {f.at.x - 1.2, y + 1.05}, figure, Anchor::right);
    page.text(two_figures(n), {f.at.x + f.w + 1.2, y + 1.05}, figure);
  });
  // Title on the left, scale on the right; both within their half.
  const double right = f.at.x + f.w;
  page.text("1 : " + thousands(f.scale), {right, 10.6}, {Face::figures_bold, 5.0, ink::text},
            Anchor::right);
  page.text(say(Say::scale_line, language,
                {length_text(f.scale / 1000, trip::LengthUnit::metric),
                 fmt::format("{:.4g}", 1e6 / f.scale),
                 length_text(facts.contour_m, trip::LengthUnit::metric)}),
            {right, 15.4}, {Face::words, 2.6, ink::stone}, Anchor::right);
  const double half = 0.58 * f.w;
  page.fitted(ground.name.empty() ? plan.trip.name : ground.name, {f.at.x, 11.2}, half,
              {Face::words_bold, 6.0, ink::text}, Anchor::left, 0.5);
  auto line = plan.trip.name;
  if (facts.of > 1)
    line += (line.empty() ? "" : ", ") +
            say(Say::sheet_of, language, {std::to_string(facts.number), std::to_string(facts.of)});
  for (const auto& n : facts.neighbours) line += " · " + n;
  page.fitted(line, {f.at.x, 15.8}, half, {Face::words, 3.0, ink::stone});
}

void draw_index(Page& page, Labels& labels, const MapFrame& f, const std::vector<MapFrame>& all,
                std::size_t present) {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  for (const auto& s : all) {
    west = std::min(west, s.south_west.east_m);
    south = std::min(south, s.south_west.north_m);
    east = std::max(east, s.east_m());
    north = std::max(north, s.north_m());
  }
  const double k = 20 / std::max(east - west, north - south);
  const double w = k * (east - west) + 3, h = k * (north - south) + 3;
  const Mm corners[] = {{f.at.x + 1, f.at.y + 1},
                        {f.at.x + f.w - w - 1, f.at.y + 1},
                        {f.at.x + 1, f.at.y + f.h - h - 1},
                        {f.at.x + f.w - w - 1, f.at.y + f.h - h - 1}};
  Mm at = corners[0];
  for (const auto& c : corners) {
    if (labels.free({c.x, c.y, c.x + w, c.y + h})) {
      at = c;
      break;
    }
  }
  labels.hold({at.x, at.y, at.x + w, at.y + h});
  page.box(at.x, at.y, w, h, ink::faint(ink::paper, 0.9));
  page.frame(at.x, at.y, w, h, {ink::text, 0.2});
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double x = at.x + 1.5 + k * (all[i].south_west.east_m - west),
                 y = at.y + 1.5 + k * (north - all[i].north_m());
    const double sw = k * all[i].metres(all[i].w), sh = k * all[i].metres(all[i].h);
    if (i == present) page.box(x, y, sw, sh, ink::faint(ink::lamp, 0.5));
    page.frame(x, y, sw, sh, {ink::night, 0.25});
    page.text(std::to_string(i + 1), {x + 0.5 * sw, y + 0.5 * sh + 0.8},
              {Face::figures_bold, 2.2, ink::night}, Anchor::middle);
  }
}

}  // namespace lodeway::sheet
