#include "lodeway/sheet/map/map_relief.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

namespace {

constexpr double shade_pixel_mm = 0.42, slope_pixel_mm = 0.3, least_half_ring_mm = 4,
                 most_half_ring_mm = 60, clear_of_legs_mm = 5, deg = 180 / std::numbers::pi;
constexpr double contour_by_mm = 0.03;  // a fifth of the thinnest contour
constexpr double figure_mm = 2.05, figure_every_mm = 70, figure_apart_mm = 24,
                 steepest_turn_deg = 100;

}  // namespace

double contour_interval_m(double scale, bool feet) {
  constexpr double most[] = {12500, 30000, 60000, 150000}, in_m[] = {5, 10, 20, 50, 100},
                   in_ft[] = {20, 50, 100, 200, 500};
  std::size_t k = 0;
  while (k < std::size(most) && scale > most[k]) ++k;
  return feet ? in_ft[k] * units::metres_per_foot : in_m[k];
}

terrain::Elevation cut_to(const terrain::Elevation& heights, const MapFrame& frame) {
  const auto& f = heights.frame();
  const int r0 = std::clamp(
      static_cast<int>(std::floor((f.north_m - frame.north_m()) / f.cell_m)) - 2, 0, f.rows);
  const int r1 =
      std::clamp(static_cast<int>(std::ceil((f.north_m - frame.south_west.north_m) / f.cell_m)) + 2,
                 0, f.rows);
  const int c0 = std::clamp(
      static_cast<int>(std::floor((frame.south_west.east_m - f.west_m) / f.cell_m)) - 2, 0, f.cols);
  const int c1 = std::clamp(static_cast<int>(std::ceil((frame.east_m() - f.west_m) / f.cell_m)) + 2,
                            0, f.cols);
  terrain::Elevation out(terrain::Frame{f.west_m + c0 * f.cell_m, f.north_m - r0 * f.cell_m,
                                        f.cell_m, std::max(0, r1 - r0), std::max(0, c1 - c0)});
  for (int r = r0; r < r1; ++r) {
    for (int c = c0; c < c1; ++c) out[r - r0, c - c0] = heights[r, c];
  }
  return out;
}

namespace {

/// A picture over the map, its colour at each place given by `ink_at(value of the raster)`.
template <class InkAt>
void draw_raster(Page& page, const MapFrame& frame, const terrain::Raster<float>& values,
                 double pixel_mm, const InkAt& ink_at) {
  if (values.empty()) return;
  ImageCommand image;
  image.at = frame.at;
  image.width_mm = frame.w;
  image.height_mm = frame.h;
  image.cols = std::max(1, static_cast<int>(frame.w / pixel_mm));
  image.rows = std::max(1, static_cast<int>(frame.h / pixel_mm));
  image.rgba.resize(static_cast<std::size_t>(image.rows) * static_cast<std::size_t>(image.cols) * 4,
                    0);
  auto* out = image.rgba.data();
  for (int r = 0; r < image.rows; ++r) {
    for (int c = 0; c < image.cols; ++c, out += 4) {
      const Mm p{frame.at.x + (c + 0.5) / image.cols * frame.w,
                 frame.at.y + (r + 0.5) / image.rows * frame.h};
      const double value = terrain::height_at(values, frame.on_ground(p));
      if (!std::isfinite(value)) continue;
      const Ink i = ink_at(value);
      out[0] = i.red;
      out[1] = i.green;
      out[2] = i.blue;
      out[3] = static_cast<std::uint8_t>(std::lround(255 * i.alpha));
    }
  }
  page.add(std::move(image));
}

}  // namespace

void draw_shade(Page& page, const MapFrame& frame, const terrain::Elevation& heights) {
  draw_raster(page, frame, terrain::relief_shade(heights, 1.6), shade_pixel_mm, [](double lit) {
    return Ink{0x30, 0x34, 0x48, std::clamp(0.42 * (0.71 - lit), 0.0, 0.24)};
  });
}

void draw_slope_shade(Page& page, const MapFrame& frame, const terrain::Elevation& heights) {
  draw_raster(page, frame, terrain::slope_raster(heights), slope_pixel_mm, [](double slope) {
    return slope < slope_steps_deg[0]   ? ink::faint(ink::paper, 0)
           : slope < slope_steps_deg[1] ? ink::heath_1
           : slope < slope_steps_deg[2] ? ink::heath_2
           : slope < slope_steps_deg[3] ? ink::heath_3
                                        : ink::heath_4;
  });
}

namespace {

bool holds(const std::vector<Mm>& ring, Mm p) {
  bool in = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    if ((ring[i].y > p.y) != (ring[j].y > p.y) &&
        p.x < ring[i].x + (p.y - ring[i].y) / (ring[j].y - ring[i].y) * (ring[j].x - ring[i].x))
      in = !in;
  }
  return in;
}

/// A closed half contour around nothing else is a knoll or hollow of its own.
void draw_half_contours(Page& page, const MapFrame& frame, const terrain::Elevation& heights,
                        double interval, const std::vector<std::vector<Mm>>& plain,
                        const std::vector<std::vector<Mm>>& index) {
  std::vector<std::vector<Mm>> rings;
  for (const auto& line : terrain::contours(heights, 0.5 * interval)) {
    const bool whole = std::abs(std::remainder(line.height_m, interval)) < 1e-6;
    if (whole || !line.closed || !frame.touches(line.points, 0)) continue;
    auto ring = on_page(frame, line.points);
    const double around = length_mm(ring);
    if (around < least_half_ring_mm || around > most_half_ring_mm) continue;
    const auto inside = [&](const std::vector<Mm>& other) { return holds(ring, other.front()); };
    if (std::ranges::none_of(plain, inside) && std::ranges::none_of(index, inside))
      rings.push_back(std::move(ring));
  }
  page.strokes(std::move(rings),
               {ink::peat, std::max(0.12, 0.14 * ground_size(frame.scale)), {1.6, 0.8}}, true);
}

}  // namespace

ContourSet draw_contours(Page& page, const MapFrame& frame, const terrain::Elevation& heights,
                         double interval, bool half) {
  ContourSet out{interval, {}};
  const double k = ground_size(frame.scale);
  std::vector<std::vector<Mm>> plain_open, plain_closed, index_open, index_closed;
  for (auto& line : terrain::contours(heights, interval)) {
    if (!frame.touches(line.points)) continue;
    auto on_paper = on_page(frame, mapdata::simplify(line.points, frame.metres(contour_by_mm)));
    const bool index = std::abs(std::remainder(line.height_m, 5 * interval)) < 1e-6;
    (index ? (line.closed ? index_closed : index_open) : (line.closed ? plain_closed : plain_open))
        .push_back(std::move(on_paper));
    if (index) out.lines.push_back(std::move(line));
  }
  if (half) draw_half_contours(page, frame, heights, interval, plain_closed, index_closed);
  const Pen thin{ink::faint(ink::peat, 0.75), std::max(0.12, 0.15 * k), {}, true},
      thick{ink::peat, 0.30 * k, {}, true};
  if (!plain_open.empty()) page.strokes(std::move(plain_open), thin);
  if (!plain_closed.empty()) page.strokes(std::move(plain_closed), thin, true);
  if (!index_open.empty()) page.strokes(std::move(index_open), thick);
  if (!index_closed.empty()) page.strokes(std::move(index_closed), thick, true);
  return out;
}

void draw_contour_figures(Page& page, Labels& labels, const MapFrame& frame,
                          const ContourSet& contours, const FigureRules& rules) {
  const Type type{Face::figures, figure_mm, ink::peat, 0.7};
  // On ground so steep that the next index contour would run through the figure.
  const auto crowded = [&](earth::GridPoint p) {
    if (rules.heights == nullptr) return false;
    const double slope = terrain::slope_deg_at(*rules.heights, p);
    return frame.mm(5 * contours.interval_m) < 1.2 * figure_mm * std::tan(slope / deg);
  };
  std::vector<Mm> set;
  for (const auto& line : contours.lines) {
    const auto words =
        fmt::format("{:.0f}", line.height_m / (rules.feet ? units::metres_per_foot : 1));
    const double w = page.width(words, type);
    double run = 0.4 * figure_every_mm;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      const Mm a = frame.on_page(line.points[i - 1]), b = frame.on_page(line.points[i]);
      run += std::hypot(b.x - a.x, b.y - a.y);
      if (run < figure_every_mm || i + 4 >= line.points.size() || i < 5) continue;
      // Higher ground lies to the right of the line: read against it, and the figure's head is
      // uphill.
      const Mm from = frame.on_page(line.points[i + 3]), to = frame.on_page(line.points[i - 4]);
      const double turn = std::atan2(to.y - from.y, to.x - from.x) * deg;
      if (std::abs(turn) > steepest_turn_deg) continue;
      const Mm at{b.x - 0.36 * figure_mm * std::sin(turn / deg),
                  b.y + 0.36 * figure_mm * std::cos(turn / deg)};
      const bool near = std::ranges::any_of(
          set, [&](Mm s) { return std::hypot(s.x - at.x, s.y - at.y) < figure_apart_mm; });
      if (near || crowded(line.points[i]) || std::ranges::any_of(rules.legs, [&](const auto& leg) {
            return distance_mm(at, leg) < clear_of_legs_mm;
          }))
        continue;
      if (!labels.take(room_of(at, w, figure_mm, Anchor::middle, turn))) continue;
      page.text(words, at, type, Anchor::middle, turn);
      set.push_back(at);
      run = 0;
    }
  }
}

}  // namespace lodeway::sheet
