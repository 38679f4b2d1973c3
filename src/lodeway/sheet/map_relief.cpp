#include "lodeway/sheet/map_relief.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/terrain/slope.hpp"

namespace lodeway::sheet {

namespace {

constexpr double shade_pixel_mm = 0.42, deg = 180 / std::numbers::pi;
constexpr double figure_mm = 2.05, figure_every_mm = 70, figure_apart_mm = 24,
                 steepest_turn_deg = 100;

double symbol_scale(double scale) { return scale <= 12000 ? 1.15 : scale >= 40000 ? 0.85 : 1.0; }

}  // namespace

double contour_interval_m(double scale) {
  return scale <= 12500    ? 5
         : scale <= 30000  ? 10
         : scale <= 60000  ? 20
         : scale <= 150000 ? 50
                           : 100;
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

void draw_shade(Page& page, const MapFrame& frame, const terrain::Elevation& heights) {
  const auto shade = terrain::relief_shade(heights, 1.6);
  if (shade.empty()) return;
  ImageCommand image;
  image.at = frame.at;
  image.width_mm = frame.w;
  image.height_mm = frame.h;
  image.cols = std::max(1, static_cast<int>(frame.w / shade_pixel_mm));
  image.rows = std::max(1, static_cast<int>(frame.h / shade_pixel_mm));
  image.rgba.resize(static_cast<std::size_t>(image.rows) * static_cast<std::size_t>(image.cols) * 4,
                    0);
  for (int r = 0; r < image.rows; ++r) {
    for (int c = 0; c < image.cols; ++c) {
      const Mm p{frame.at.x + (c + 0.5) / image.cols * frame.w,
                 frame.at.y + (r + 0.5) / image.rows * frame.h};
      const double lit = terrain::height_at(shade, frame.on_ground(p));
      if (!std::isfinite(lit)) continue;
      const auto i = (static_cast<std::size_t>(r) * static_cast<std::size_t>(image.cols) +
                      static_cast<std::size_t>(c)) *
                     4;
      image.rgba[i] = 0x30;
      image.rgba[i + 1] = 0x34;
      image.rgba[i + 2] = 0x48;
      image.rgba[i + 3] =
          static_cast<std::uint8_t>(std::lround(255 * std::clamp(0.42 * (0.71 - lit), 0.0, 0.24)));
    }
  }
  page.add(std::move(image));
}

ContourSet draw_contours(Page& page, const MapFrame& frame, const terrain::Elevation& heights,
                         double interval) {
  ContourSet out{interval, {}};
  const double k = symbol_scale(frame.scale);
  std::vector<std::vector<Mm>> plain_open, plain_closed, index_open, index_closed;
  for (auto& line : terrain::contours(heights, interval)) {
    if (!frame.touches(line.points)) continue;
    std::vector<Mm> on_page;
    for (const auto& p : line.points) on_page.push_back(frame.on_page(p));
    const bool index = std::abs(std::remainder(line.height_m, 5 * interval)) < 1e-6;
    (index ? (line.closed ? index_closed : index_open) : (line.closed ? plain_closed : plain_open))
        .push_back(std::move(on_page));
    if (index) out.lines.push_back(std::move(line));
  }
  const Pen thin{ink::faint(ink::peat, 0.75), std::max(0.12, 0.15 * k), {}, true},
      thick{ink::peat, 0.30 * k, {}, true};
  if (!plain_open.empty()) page.strokes(std::move(plain_open), thin);
  if (!plain_closed.empty()) page.strokes(std::move(plain_closed), thin, true);
  if (!index_open.empty()) page.strokes(std::move(index_open), thick);
  if (!index_closed.empty()) page.strokes(std::move(index_closed), thick, true);
  return out;
}

void draw_contour_figures(Page& page, Labels& labels, const MapFrame& frame,
                          const ContourSet& contours) {
  const Type type{Face::figures, figure_mm, ink::peat, 0.7};
  std::vector<Mm> set;
  for (const auto& line : contours.lines) {
    const auto words = fmt::format("{:.0f}", line.height_m);
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
      if (near || !labels.take(room_of(at, w, figure_mm, Anchor::middle, turn))) continue;
      page.text(words, at, type, Anchor::middle, turn);
      set.push_back(at);
      run = 0;
    }
  }
}

}  // namespace lodeway::sheet
