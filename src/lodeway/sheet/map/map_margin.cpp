#include "lodeway/sheet/map/map_margin.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/words.hpp"

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

/// Outside the frame where the way goes on: a dark arrow head and the number of the next sheet.
/// Answers the rooms taken.
std::vector<Room> draw_going_on(Page& page, const MapFrame& f, const SheetPlace& here) {
  const Type type{Face::figures_bold, 3.0, ink::paper};
  std::vector<Room> out;
  for (const auto& g : here.goes_on) {
    const double gaps[] = {g.at.x - f.at.x, f.at.x + f.w - g.at.x, g.at.y - f.at.y,
                           f.at.y + f.h - g.at.y};
    const auto side = std::ranges::min_element(gaps) - std::begin(gaps);
    const Mm d = side == 0 ? Mm{-1, 0} : side == 1 ? Mm{1, 0} : side == 2 ? Mm{0, -1} : Mm{0, 1};
    const auto words = std::to_string(g.sheet + 1);
    const double w = std::max(3.6, page.width(words, type) + 1.4), h = 4.0;
    const double deep = d.x != 0 ? w : h;
    const Mm c{g.at.x + (0.5 * deep + 0.5) * d.x, g.at.y + (0.5 * deep + 0.5) * d.y};
    const Room room{c.x - 0.5 * w, c.y - 0.5 * h, c.x + 0.5 * w, c.y + 0.5 * h};
    if (std::ranges::any_of(out, [&](const Room& r) { return r.meets(room); })) continue;
    out.push_back(room);
    page.box(room.x0, room.y0, w, h, ink::night);
    const Mm tip{c.x + (0.5 * deep + 1.3) * d.x, c.y + (0.5 * deep + 1.3) * d.y};
    const Mm base{c.x + 0.5 * deep * d.x, c.y + 0.5 * deep * d.y};
    page.fill(
        {{tip, {base.x - 1.2 * d.y, base.y + 1.2 * d.x}, {base.x + 1.2 * d.y, base.y - 1.2 * d.x}}},
        ink::night);
    page.text(words, {c.x, c.y + 1.08}, type, Anchor::middle);
  }
  return out;
}

/// The four steps of the slope shade, right-aligned.
void draw_slope_key(Page& page, Mm right, units::Language language) {
  const Ink steps[] = {ink::heath_1, ink::heath_2, ink::heath_3, ink::heath_4};
  const Type type{Face::figures, 2.2, ink::text};
  double x = right.x;
  for (std::size_t i = 4; i-- > 0;) {
    const auto words = fmt::format("{:.0f}°", slope_steps_deg[i]);
    x -= page.width(words, type);
    page.text(words, {x, right.y}, type);
    x -= 4.6;
    page.box(x, right.y - 1.9, 4, 2.2, steps[i]);
    page.frame(x, right.y - 1.9, 4, 2.2, {ink::stone, 0.12});
    x -= 1.2;
  }
  page.text(say(Say::slope_from, language), {x, right.y}, {Face::words, 2.2, ink::stone},
            Anchor::right);
}

}  // namespace

void draw_grid(Page& page, const MapFrame& f) {
  std::vector<std::vector<Mm>> lines;
  each_easting(f, [&](double, double x) { lines.push_back({{x, f.at.y}, {x, f.at.y + f.h}}); });
  each_northing(f, [&](double, double y) { lines.push_back({{f.at.x, y}, {f.at.x + f.w, y}}); });
  page.strokes(std::move(lines), {ink::rule, 0.15});
}

void draw_meridian(Page& page, Mm foot, Mm head, bool tipped) {
  page.stroke({foot, head}, {ink::text, 0.15, {6, 1.2}});
  if (!tipped) return;
  const double lean = (head.x - foot.x) / (foot.y - head.y);
  const Mm tip{head.x - 1.5 * lean, head.y + 1.5};
  page.fill({{{tip.x, tip.y},
              {tip.x - 3.6 * lean, tip.y + 3.6},
              {tip.x - 3.6 * lean - 1.0, tip.y + 3.6}}},
            ink::text);
}

void draw_meridians(Page& page, const MapFrame& f, const trip::Norths& norths) {
  const double lean = std::tan(units::grid_magnetic_angle(norths.at).in_radians());
  if (std::abs(units::grid_magnetic_angle(norths.at).in_degrees()) > 80)
    return;  // near a magnetic pole a line would run across
  for (double x = f.at.x - f.h * std::abs(lean); x < f.at.x + f.w + f.h * std::abs(lean);
       x += meridian_every_mm) {
    const Mm foot{x, f.at.y + f.h}, head{x + f.h * lean, f.at.y};
    draw_meridian(page, foot, head, head.x > f.at.x + 3 && head.x < f.at.x + f.w - 3);
  }
}

void draw_grid_figures(Page& page, const MapFrame& f, const Type& type) {
  const double right = f.at.x + f.w, low = f.at.y + f.h;
  double last = -1e9;
  each_easting(f, [&](double e, double x) {
    if (x < f.at.x + 2 || x > right - 2 || x < last + 6) return;
    page.text(two_figures(e), {x, low + 0.9 * type.size_mm + 0.4}, type, Anchor::middle);
    last = x;
  });
  last = 1e9;
  each_northing(f, [&](double n, double y) {
    if (y < f.at.y + 2 || y > low - 2 || y > last - 4) return;
    page.text(two_figures(n), {right + 0.8, y + 0.36 * type.size_mm}, type);
    last = y;
  });
}

void draw_border(Page& page, const MapFrame& f, const trip::Plan& plan,
                 const walking::Ground& ground, const SheetFacts& facts) {
  const auto language = plan.trip.language;
  const auto& sheets = *facts.all;
  const auto& here = sheets[facts.number];
  page.frame(f.at.x, f.at.y, f.w, f.h, {ink::text, 0.5});
  const auto taken = draw_going_on(page, f, here);
  const auto free = [&](double x, double y) {
    return std::ranges::none_of(
        taken, [&](const Room& r) { return r.meets({x - 3.4, y - 3.4, x + 3.4, y + 1}); });
  };
  const Type figure{Face::figures_bold, 3.0, ink::text};
  const double right = f.at.x + f.w, low = f.at.y + f.h;
  each_easting(f, [&](double e, double x) {
    if (x < f.at.x + 4 || x > right - 4) return;
    for (const double y : {f.at.y - 1.2, low + 3.6}) {
      if (free(x, y)) page.text(two_figures(e), {x, y}, figure, Anchor::middle);
    }
  });
  each_northing(f, [&](double n, double y) {
    if (y < f.at.y + 4 || y > low - 4) return;
    if (free(f.at.x - 3, y + 1))
      page.text(two_figures(n), {f.at.x - 1.2, y + 1.05}, figure, Anchor::right);
    if (free(right + 3, y + 1)) page.text(two_figures(n), {right + 1.2, y + 1.05}, figure);
  });
  // Title on the left, scale on the right, the key between them.
  const double top = f.at.y - 22;  // as on the larger papers; the small ones begin higher
  page.text("1:" + thousands(f.scale), {right, top + 10.6}, {Face::figures_bold, 5.0, ink::text},
            Anchor::right);
  const double third = std::max(0.33 * f.w, 44.0);
  const bool feet = plan.trip.lengths == trip::LengthUnit::imperial;
  page.fitted(say(Say::scale_line, language,
                  {millimetre_text(f.scale, plan.trip.lengths),
                   feet ? fmt::format("{:.0f}", 1000 * units::metres_per_mile / f.scale)
                        : fmt::format("{:.3g}", 1e6 / f.scale),
                   feet ? fmt::format("{:.0f} ft", facts.contour_m / units::metres_per_foot)
                        : fmt::format("{:.0f} m", facts.contour_m),
                   feet ? "1 mi" : "1 km"}),
              {right, top + 15.0}, third, {Face::words, 2.6, ink::stone}, Anchor::right, 0.7);
  double title_w = f.w - third - 4;
  if (sheets.size() > 1) {
    constexpr double key_w = 17;
    draw_key(page, {right - third - key_w - 2, top + 5.4, right - third - 2, top + 16.6}, sheets,
             facts.number);
    title_w -= key_w + 2;
  }
  page.fitted(ground.name.empty() ? plan.trip.name : ground.name, {f.at.x, top + 11.2}, title_w,
              {Face::words_bold, 6.0, ink::text}, Anchor::left, 0.5);
  auto line = plan.trip.name;
  if (sheets.size() > 1) {
    line += (line.empty() ? "" : " · ") +
            say(Say::sheet_of, language,
                {std::to_string(facts.number + 1), std::to_string(sheets.size())}) +
            " · " + legs_text(here.legs, language);
  }
  page.fitted(line, {f.at.x, top + 15.6}, title_w, {Face::words, 3.0, ink::stone}, Anchor::left,
              0.6);
  if (plan.trip.shade == trip::Shade::slope) draw_slope_key(page, {right, top + 17.6}, language);
}

void draw_key(Page& page, const Room& box, const std::vector<SheetPlace>& all,
              std::size_t present) {
  GroundBox ground;
  for (const auto& s : all) {
    ground.add(s.frame.south_west);
    ground.add({s.frame.east_m(), s.frame.north_m()});
  }
  const double k = std::min((box.x1 - box.x0) / ground.wide(), (box.y1 - box.y0) / ground.high());
  const auto corner = [&](const MapFrame& f) {
    return Mm{box.x1 - k * (ground.east - f.south_west.east_m),
              box.y0 + k * (ground.north - f.north_m())};
  };
  std::vector<Room> set;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto& f = all[i].frame;
    const Mm at = corner(f);
    const double w = k * f.metres(f.w), h = k * f.metres(f.h);
    if (i == present) page.box(at.x, at.y, w, h, ink::faint(ink::lamp, 0.6));
    page.frame(at.x, at.y, w, h, {ink::night, i == present ? 0.35 : 0.18});
  }
  // The present sheet's figure first; others where they do not run into one that stands.
  std::vector<std::size_t> order(all.size());
  for (std::size_t i = 0; i < all.size(); ++i) order[i] = i;
  if (present < all.size()) std::swap(order[0], order[present]);
  const Type type{Face::figures_bold, 2.1, ink::night};
  for (const auto i : order) {
    const auto& f = all[i].frame;
    const Mm at = corner(f);
    const Mm middle{at.x + 0.5 * k * f.metres(f.w), at.y + 0.5 * k * f.metres(f.h) + 0.75};
    const auto words = std::to_string(i + 1);
    const auto room = room_of(middle, page.width(words, type), type.size_mm, Anchor::middle);
    if (std::ranges::any_of(set, [&](const Room& r) { return r.meets(room); })) continue;
    set.push_back(room);
    page.text(words, middle, type, Anchor::middle);
  }
}

}  // namespace lodeway::sheet
