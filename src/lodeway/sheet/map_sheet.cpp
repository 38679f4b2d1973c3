#include "lodeway/sheet/map_sheet.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/map_legs.hpp"
#include "lodeway/sheet/map_margin.hpp"
#include "lodeway/sheet/map_relief.hpp"
#include "lodeway/sheet/map_symbols.hpp"
#include "lodeway/sheet/wording.hpp"

namespace lodeway::sheet {

namespace {

Room inside(const MapFrame& f) {
  return {f.at.x + 0.5, f.at.y + 0.5, f.at.x + f.w - 0.5, f.at.y + f.h - 0.5};
}

Drawing draw_sheet(const trip::Plan& plan, const walking::Ground& ground,
                   const TextMeasure& measure, const std::vector<MapFrame>& all, std::size_t i) {
  const auto& f = all[i];
  const auto language = plan.trip.language;
  Page page(f.page_w, f.page_h, plan.trip.name, measure);
  Labels labels(inside(f));
  const auto heights = cut_to(ground.elevation, f);
  SheetFacts facts{i + 1, all.size(), contour_interval_m(f.scale), false, {}};
  facts.shows_void =
      heights.empty() ||
      std::ranges::any_of(heights.cells(), [](float h) { return !std::isfinite(h); }) ||
      !ground.elevation.frame().contains(f.south_west) ||
      !ground.elevation.frame().contains({f.east_m(), f.north_m()});
  if (i > 0) facts.neighbours.push_back("← " + say(Say::next_sheet, language, {std::to_string(i)}));
  if (i + 1 < all.size())
    facts.neighbours.push_back(say(Say::next_sheet, language, {std::to_string(i + 2)}) + " →");
  page.clip(f.at.x, f.at.y, f.w, f.h);
  draw_surfaces(page, f, ground.map);
  draw_shade(page, f, heights);
  const auto contours = draw_contours(page, f, heights, facts.contour_m);
  draw_lines(page, f, ground.map, ground.elevation);
  draw_grid(page, f);
  draw_meridians(page, f, plan.norths);
  draw_doubt(page, f, plan);
  draw_points(page, labels, f, ground.map);
  draw_legs(page, labels, f, plan);
  if (all.size() > 1) draw_index(page, labels, f, all, i);
  draw_leg_tags(page, labels, f, plan);
  draw_names(page, labels, f, ground.map);
  draw_contour_figures(page, labels, f, contours);
  page.unclip();
  draw_border(page, f, plan, ground, facts);
  draw_foot(page, f, plan, ground, facts);
  return page.take();
}

}  // namespace

void draw_ground(Page& page, Labels& labels, const MapFrame& f, const walking::Ground& ground,
                 double contour_m, bool quiet) {
  const auto heights = cut_to(ground.elevation, f);
  draw_surfaces(page, f, ground.map);
  draw_shade(page, f, heights);
  (void)draw_contours(page, f, heights, contour_m);
  draw_lines(page, f, ground.map, ground.elevation);
  draw_grid(page, f);
  if (!quiet) draw_points(page, labels, f, ground.map);
}

Result<std::vector<Drawing>> draw_map_sheets(const trip::Plan& plan, const walking::Ground& ground,
                                             const TextMeasure& measure) {
  const auto frames = cover(plan.way, plan.trip.map_scale, plan.trip.paper, plan.trip.landscape);
  if (!frames) return std::unexpected(frames.error());
  std::vector<Drawing> out;
  for (std::size_t i = 0; i < frames->size(); ++i)
    out.push_back(draw_sheet(plan, ground, measure, *frames, i));
  return out;
}

}  // namespace lodeway::sheet
