#include "lodeway/sheet/map/map_tile.hpp"

#include "lodeway/sheet/map/map_hatch.hpp"
#include "lodeway/sheet/map/map_margin.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"

namespace lodeway::sheet {

namespace {

constexpr double far_scale = 150000, grid_scale = 100000;

}  // namespace

Drawing draw_map_block(const walking::Ground& ground, const MapFrame& f, const TileLook& look,
                       const TextMeasure& measure) {
  Page page(f.page_w, f.page_h, ground.name, measure);
  Labels labels(Room{f.at.x + 0.3, f.at.y + 0.3, f.at.x + f.w - 0.3, f.at.y + f.h - 0.3});
  const auto heights = cut_to(ground.elevation, f);
  page.clip(f.at.x, f.at.y, f.w, f.h);
  if (look.slope) draw_slope_shade(page, f, heights);
  draw_surfaces(page, f, ground.map);
  if (!look.slope) draw_shade(page, f, heights);
  (void)draw_unknown(page, f, heights);
  const auto contours = draw_contours(page, f, heights, contour_interval_m(f.scale));
  if (f.scale <= far_scale) {
    draw_hazard(page, f, ground.map, {}, heights, look.keep_off_deg);
    draw_lines(page, f, ground.map, ground.elevation);
    if (f.scale <= grid_scale) draw_grid(page, f);
    draw_points(page, labels, f, ground.map);
    if (look.names) draw_names(page, labels, f, ground.map, &heights);
    draw_contour_figures(page, labels, f, contours, {&heights, {}, false});
  }
  page.unclip();
  return page.take();
}

}  // namespace lodeway::sheet
