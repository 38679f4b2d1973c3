#include "lodeway/sheet/map_tile.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "lodeway/sheet/map_margin.hpp"
#include "lodeway/sheet/map_relief.hpp"
#include "lodeway/sheet/map_symbols.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::sheet {

namespace {

constexpr double slope_pixel_mm = 0.42, far_scale = 150000, grid_scale = 100000;
constexpr std::array<std::pair<double, Ink>, 4> heath{
    {{35, ink::heath_4}, {30, ink::heath_3}, {25, ink::heath_2}, {20, ink::heath_1}}};

void draw_slope(Page& page, const MapFrame& f, const terrain::Elevation& heights) {
  if (heights.empty()) return;
  const auto steep = terrain::slope_raster(heights);
  ImageCommand image;
  image.at = f.at;
  image.width_mm = f.w;
  image.height_mm = f.h;
  image.cols = std::max(1, static_cast<int>(f.w / slope_pixel_mm));
  image.rows = std::max(1, static_cast<int>(f.h / slope_pixel_mm));
  image.rgba.assign(
      static_cast<std::size_t>(image.rows) * static_cast<std::size_t>(image.cols) * 4, 0);
  std::uint8_t* to = image.rgba.data();
  for (int r = 0; r < image.rows; ++r) {
    for (int c = 0; c < image.cols; ++c, to += 4) {
      const Mm p{f.at.x + (c + 0.5) / image.cols * f.w, f.at.y + (r + 0.5) / image.rows * f.h};
      const double deg = terrain::height_at(steep, f.on_ground(p));
      for (const auto& [from, ink] : heath) {
        if (!(deg >= from)) continue;
        to[0] = ink.red, to[1] = ink.green, to[2] = ink.blue, to[3] = 255;
        break;
      }
    }
  }
  page.add(std::move(image));
}

}  // namespace

Drawing draw_map_block(const walking::Ground& ground, const MapFrame& f, const TileLook& look,
                       const TextMeasure& measure) {
  Page page(f.page_w, f.page_h, ground.name, measure);
  Labels labels(Room{f.at.x + 0.3, f.at.y + 0.3, f.at.x + f.w - 0.3, f.at.y + f.h - 0.3});
  const auto heights = cut_to(ground.elevation, f);
  page.clip(f.at.x, f.at.y, f.w, f.h);
  if (look.slope) draw_slope(page, f, heights);
  draw_surfaces(page, f, ground.map);
  if (!look.slope) draw_shade(page, f, heights);
  const auto contours = draw_contours(page, f, heights, contour_interval_m(f.scale));
  if (f.scale <= far_scale) {
    draw_lines(page, f, ground.map, ground.elevation);
    if (f.scale <= grid_scale) draw_grid(page, f);
    draw_points(page, labels, f, ground.map);
    draw_names(page, labels, f, ground.map);
    draw_contour_figures(page, labels, f, contours);
  }
  page.unclip();
  return page.take();
}

}  // namespace lodeway::sheet
