#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/map/map_margin.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/sheet/words.hpp"

namespace lodeway::sheet {

namespace {

constexpr double usual_row_mm = 5.2, title_mm = 20, least_column_mm = 42;

/// A round scale at which the box fits, with 4 mm to spare.
double scale_for(const GroundBox& box, const MapFrame& f) {
  const double least = 1000 * std::max(box.wide() / (f.w - 8), box.high() / (f.h - 8));
  for (double ten = 1000; ten < 1e9; ten *= 10) {
    for (const double k : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5}) {
      if (k * ten >= least) return k * ten;
    }
  }
  return least;
}

}  // namespace

Drawing draw_index_page(const trip::Plan& plan, const walking::Ground& ground,
                        const TextMeasure& measure, const std::vector<SheetPlace>& sheets) {
  const auto& trip = plan.trip;
  const auto language = trip.language;
  GroundBox box;
  for (const auto& s : sheets) {
    box.add(s.frame.south_west);
    box.add({s.frame.east_m(), s.frame.north_m()});
  }
  MapFrame f = empty_frame(trip.map_scale, trip.paper, false);
  // The map gets half of the page and more: many sheets stand in more columns, then closer.
  const double room = f.page_h - f.at.y - 24;
  auto columns = static_cast<std::size_t>(std::max(1.0, std::floor(f.w / 80)));
  const auto rows_of = [&](std::size_t c) { return (sheets.size() + c - 1) / c; };
  while (usual_row_mm * static_cast<double>(rows_of(columns)) > 0.4 * room &&
         f.w / static_cast<double>(columns + 1) >= least_column_mm) {
    ++columns;
  }
  const auto rows = rows_of(columns);
  const double row_mm = std::min(usual_row_mm, 0.5 * room / static_cast<double>(rows));
  const double letters = std::max(row_mm / usual_row_mm, 0.6);
  f.h = room - row_mm * static_cast<double>(rows);
  f.scale = scale_for(box, f);
  f = centred(f, box.middle());

  Page page(f.page_w, f.page_h, trip.name, measure);
  page.fitted(fmt::format("{} · {}", say(Say::sheets, language), trip.name), {f.at.x, title_mm - 9},
              f.w - 42, {Face::words_bold, 5.2, ink::text}, Anchor::left, 0.5);
  page.text("1 : " + thousands(f.scale), {f.at.x + f.w, title_mm - 9},
            {Face::figures_bold, 4.2, ink::text}, Anchor::right);
  page.paragraph(say(Say::sheets_note, language, {fmt::format("{:.0f}", overlap_mm)}),
                 {f.at.x, title_mm - 4.4}, f.w, {Face::words, 2.5, ink::stone}, 3.1, 2);
  Labels labels({f.at.x, f.at.y, f.at.x + f.w, f.at.y + f.h});
  page.clip(f.at.x, f.at.y, f.w, f.h);
  draw_ground(page, labels, f, ground,
              2 * contour_interval_m(f.scale, trip.lengths == trip::LengthUnit::imperial), true);
  for (const auto& line : legs_on_page(f, plan)) {
    page.stroke(line, {ink::paper, 1.6, {}, true});
    page.stroke(line, {ink::night, 0.7, {}, true});
  }
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const auto& s = sheets[i].frame;
    const Mm at = f.on_page({s.south_west.east_m, s.north_m()});
    const double w = f.mm(s.metres(s.w)), h = f.mm(s.metres(s.h));
    page.frame(at.x, at.y, w, h, {ink::faint(ink::paper, 0.9), 1.1});
    page.frame(at.x, at.y, w, h, {ink::night, 0.4});
    const auto number = std::to_string(i + 1);
    const double size = std::clamp(0.3 * std::min(w, h), 1.9, 3.4), high = 1.35 * size;
    const Type type{Face::figures_bold, size, ink::paper};
    const double wide = std::max(high, page.width(number, type) + 0.53 * size);
    const Mm corners[] = {{at.x + 0.8, at.y + 0.8},
                          {at.x + w - wide - 0.8, at.y + 0.8},
                          {at.x + 0.8, at.y + h - high - 0.8},
                          {at.x + w - wide - 0.8, at.y + h - high - 0.8}};
    const auto* free = std::ranges::find_if(
        corners, [&](Mm c) { return labels.take({c.x, c.y, c.x + wide, c.y + high}); });
    const Mm c = free == std::end(corners) ? corners[0] : *free;
    page.box(c.x, c.y, wide, high, ink::night);
    page.text(number, {c.x + 0.5 * wide, c.y + 1.03 * size}, type, Anchor::middle);
  }
  page.unclip();
  page.frame(f.at.x, f.at.y, f.w, f.h, {ink::text, 0.4});

  const double column_w = f.w / static_cast<double>(columns);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const auto& s = sheets[i];
    if (s.legs.empty()) continue;
    const double x = f.at.x + column_w * static_cast<double>(i / rows),
                 y = f.at.y + f.h + 8 + row_mm * static_cast<double>(i % rows);
    page.text(std::to_string(i + 1), {x + 5, y}, {Face::figures_bold, 3.2 * letters, ink::night},
              Anchor::right);
    const auto [first, last] = std::ranges::minmax(s.legs);
    page.fitted(fmt::format("{}: {} → {}", legs_text(s.legs, language),
                            plan.way.legs[first].course.from, plan.way.legs[last].course.to),
                {x + 7, y}, column_w - 10, {Face::words, 2.9 * letters, ink::text}, Anchor::left,
                0.6);
  }
  return page.take();
}

}  // namespace lodeway::sheet
