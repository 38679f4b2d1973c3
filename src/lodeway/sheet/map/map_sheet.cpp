#include "lodeway/sheet/map/map_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/sheet/map/map_hatch.hpp"
#include "lodeway/sheet/map/map_legend.hpp"
#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/map/map_margin.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"
#include "lodeway/sheet/words.hpp"

namespace lodeway::sheet {

namespace {

Room inside(const MapFrame& f) {
  return {f.at.x + 0.5, f.at.y + 0.5, f.at.x + f.w - 0.5, f.at.y + f.h - 0.5};
}

std::vector<std::vector<earth::GridPoint>> rings_to_avoid(const trip::Trip& trip) {
  std::vector<std::vector<earth::GridPoint>> out;
  for (const auto& area : trip.request.avoid) out.push_back(area.ring);
  return out;
}

/// The leader's own places by the leader's names, where the map has not the same name there.
void draw_own_names(Page& page, Labels& labels, const MapFrame& f, const trip::Plan& plan,
                    const mapdata::MapData& map) {
  constexpr double same_m = 200, clear_mm = 2.6;
  for (const auto& point : plan.trip.request.points) {
    const auto same = [&](const mapdata::PointFeature& p) {
      return p.label.name == point.name && earth::grid_distance_m(p.at, point.at) < same_m;
    };
    if (point.name.empty() || !f.near(point.at) || std::ranges::any_of(map.points, same)) continue;
    (void)name_beside(page, labels, point.name, f.on_page(point.at), clear_mm,
                      {Face::words_bold, 2.8, ink::night, 0.8});
  }
}

Drawing draw_sheet(const trip::Plan& plan, const walking::Ground& ground,
                   const TextMeasure& measure, const std::vector<SheetPlace>& all, std::size_t i) {
  const auto& trip = plan.trip;
  const auto& f = all[i].frame;
  Page page(f.page_w, f.page_h, trip.name, measure);
  Labels labels(inside(f));
  const auto heights = cut_to(ground.elevation, f);
  SheetFacts facts;
  facts.number = i;
  facts.all = &all;
  const bool feet = trip.lengths == trip::LengthUnit::imperial;
  facts.contour_m = contour_interval_m(f.scale, feet);
  page.clip(f.at.x, f.at.y, f.w, f.h);
  if (trip.shade == trip::Shade::slope) draw_slope_shade(page, f, heights);
  draw_surfaces(page, f, ground.map);
  if (trip.shade == trip::Shade::relief) draw_shade(page, f, heights);
  facts.shows_void = draw_unknown(page, f, heights);
  const auto contours = draw_contours(page, f, heights, facts.contour_m, trip.half_contours);
  draw_doubt_shade(page, f, plan);
  Shown shown{draw_hazard(page, f, ground.map, rings_to_avoid(trip), heights,
                          trip.request.party.max_slope_deg),
              facts.shows_void,
              std::ranges::any_of(heights.cells(), [](float h) { return std::isfinite(h); })};
  draw_lines(page, f, ground.map, ground.elevation);
  draw_grid(page, f);
  draw_meridians(page, f, plan.norths);
  draw_points(page, labels, f, ground.map);
  draw_doubt(page, labels, f, plan);
  draw_legs(page, labels, f, plan);
  draw_leg_tags(page, labels, f, plan);
  draw_own_names(page, labels, f, plan, ground.map);
  draw_names(page, labels, f, ground.map, &heights, feet);
  draw_contour_figures(page, labels, f, contours, {&heights, legs_on_page(f, plan), feet});
  page.unclip();
  draw_border(page, f, plan, ground, facts);
  draw_legend(page, {f.at.x, f.at.y + f.h + 5.6}, f, plan, ground.map, shown, facts.contour_m);
  draw_foot(page, f, plan, ground, facts);
  return page.take();
}

}  // namespace

void draw_ground(Page& page, Labels& labels, const MapFrame& f, const walking::Ground& ground,
                 double contour_m, bool quiet) {
  const auto heights = cut_to(ground.elevation, f);
  draw_surfaces(page, f, ground.map);
  draw_shade(page, f, heights);
  (void)draw_unknown(page, f, heights);
  (void)draw_contours(page, f, heights, contour_m);
  draw_lines(page, f, ground.map, ground.elevation);
  draw_grid(page, f);
  if (!quiet) draw_points(page, labels, f, ground.map);
}

Result<std::vector<Drawing>> draw_map_sheets(const trip::Plan& plan, const walking::Ground& ground,
                                             const TextMeasure& measure) {
  const auto places = cover(plan.way, plan.trip.map_scale, plan.trip.paper, plan.trip.landscape);
  if (!places) return std::unexpected(places.error());
  return draw_map_sheets(plan, ground, measure, *places);
}

std::vector<Drawing> draw_map_sheets(const trip::Plan& plan, const walking::Ground& ground,
                                     const TextMeasure& measure,
                                     const std::vector<SheetPlace>& places) {
  std::vector<Drawing> out;
  for (std::size_t i = 0; i < places.size(); ++i)
    out.push_back(draw_sheet(plan, ground, measure, places, i));
  if (out.size() > 1) out.push_back(draw_index_page(plan, ground, measure, places));
  return out;
}

}  // namespace lodeway::sheet
