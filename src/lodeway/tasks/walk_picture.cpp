#include <algorithm>
#include <array>
#include <cmath>

#include "lodeway/tasks/detail/walk_picture.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::tasks::detail {

namespace {
using earth::GridPoint;
using io::Colour;
using Picture = terrain::Raster<Colour>;

constexpr double pixel_m = 10, contour_m = 50;
constexpr double most_pixels = 4e6;

void dot(Picture& picture, GridPoint at, int half, Colour ink) {
  const auto [row, col] = picture.frame().cell_of(at);
  for (int r = row - half; r <= row + half; ++r) {
    for (int c = col - half; c <= col + half; ++c)
      if (picture.frame().holds(r, c)) picture[r, c] = ink;
  }
}

void line(Picture& picture, GridPoint a, GridPoint b, int half, Colour ink) {
  const GridPoint d = b - a;
  const int steps = std::max(1, static_cast<int>(2 * earth::length_of(d) / picture.frame().cell_m));
  for (int k = 0; k <= steps; ++k)
    dot(picture, a + (static_cast<double>(k) / steps) * d, half, ink);
}

/// Figures of 3 x 5 dots.
constexpr std::array<std::array<int, 5>, 10> figures{{{7, 5, 5, 5, 7},
                                                      {2, 6, 2, 2, 7},
                                                      {7, 1, 7, 4, 7},
                                                      {7, 1, 7, 1, 7},
                                                      {5, 5, 7, 1, 1},
                                                      {7, 4, 7, 1, 7},
                                                      {7, 4, 7, 5, 7},
                                                      {7, 1, 1, 2, 2},
                                                      {7, 5, 7, 5, 7},
                                                      {7, 5, 7, 1, 7}}};

void number(Picture& picture, GridPoint at, int value) {
  constexpr int dots = 4;
  const auto text = std::to_string(value);
  const auto [row, col] = picture.frame().cell_of(at);
  const int width = static_cast<int>(text.size()) * 4 * dots, left = col - width / 2,
            top = row - 5 * dots / 2;
  for (int r = top - dots; r < top + 6 * dots; ++r) {
    for (int c = left - dots; c < left + width; ++c)
      if (picture.frame().holds(r, c)) picture[r, c] = {255, 255, 255};
  }
  for (std::size_t k = 0; k < text.size(); ++k) {
    const auto& figure = figures[static_cast<std::size_t>(text[k] - '0')];
    for (int r = 0; r < 5 * dots; ++r) {
      for (int c = 0; c < 3 * dots; ++c) {
        if ((figure[static_cast<std::size_t>(r / dots)] >> (2 - c / dots) & 1) == 0) continue;
        const int y = top + r, x = left + static_cast<int>(k) * 4 * dots + c;
        if (picture.frame().holds(y, x)) picture[y, x] = {0, 0, 0};
      }
    }
  }
}
}  // namespace

Picture overdue_picture(const walking::Ground& ground, const trip::PlannedWay& way,
                        const walkers::Overdue& overdue) {
  const auto& s = overdue.share.frame();
  double west = s.west_m, east = s.east_m(), south = s.south_m(), north = s.north_m;
  for (const auto& leg : way.legs) {
    for (const GridPoint p : leg.course.line) {
      west = std::min(west, p.east_m - 300);
      east = std::max(east, p.east_m + 300);
      south = std::min(south, p.north_m - 300);
      north = std::max(north, p.north_m + 300);
    }
  }
  double pixel = pixel_m;
  while ((east - west) * (north - south) / (pixel * pixel) > most_pixels) pixel *= 2;
  Picture picture(terrain::Frame{west, north, pixel,
                                 static_cast<int>(std::ceil((north - south) / pixel)),
                                 static_cast<int>(std::ceil((east - west) / pixel))});
  const auto& f = picture.frame();
  float most = 0;
  for (const float v : overdue.share.cells()) most = std::max(most, v);
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      const auto at = f.centre(r, c);
      const auto g = terrain::gradient_at(ground.elevation, at);
      const double z = terrain::height_at(ground.elevation, at);
      const double lit =
          std::isfinite(g.east) ? std::clamp(0.8 - 0.5 * (g.north - g.east), 0.4, 1.0) : 1.0;
      double grey = 185 + 70 * lit;
      const double across = std::max(std::hypot(g.east, g.north) * f.cell_m, 0.02);
      if (std::isfinite(z) && std::abs(std::remainder(z, contour_m)) < 0.5 * across) grey -= 40;
      double red = grey, green = grey, blue = grey;
      const auto [sr, sc] = s.cell_of(at);
      const double share =
          s.holds(sr, sc) && most > 0 ? static_cast<double>(overdue.share[sr, sc] / most) : 0;
      if (share > 0.002) {
        const double ink = std::clamp(0.9 + 0.3 * std::log10(share), 0.1, 0.9);
        red += ink * (130 - red);
        green += ink * (20 - green);
        blue += ink * (70 - blue);
      }
      const auto byte = [](double v) {
        return static_cast<std::uint8_t>(std::clamp(v, 0.0, 255.0));
      };
      picture[r, c] = {byte(red), byte(green), byte(blue)};
    }
  }
  for (const auto& leg : way.legs) {
    for (std::size_t i = 1; i < leg.course.line.size(); ++i)
      line(picture, leg.course.line[i - 1], leg.course.line[i], 0, {0, 0, 0});
    dot(picture, leg.course.line.back(), 2, {0, 0, 0});
  }
  // the rim of each area, then the numbers over all
  for (const auto& area : overdue.areas) {
    std::vector<std::size_t> cells = area.cells;
    std::ranges::sort(cells);
    const auto in = [&](int r, int c) {
      return s.holds(r, c) &&
             std::ranges::binary_search(
                 cells, static_cast<std::size_t>(r) * static_cast<std::size_t>(s.cols) +
                            static_cast<std::size_t>(c));
    };
    for (const std::size_t i : cells) {
      const int r = static_cast<int>(i / static_cast<std::size_t>(s.cols)),
                c = static_cast<int>(i % static_cast<std::size_t>(s.cols));
      const GridPoint nw{s.west_m + c * s.cell_m, s.north_m - r * s.cell_m};
      const GridPoint e{s.cell_m, 0}, down{0, -s.cell_m};
      constexpr Colour rim{40, 0, 20};
      if (!in(r - 1, c)) line(picture, nw, nw + e, 0, rim);
      if (!in(r + 1, c)) line(picture, nw + down, nw + down + e, 0, rim);
      if (!in(r, c - 1)) line(picture, nw, nw + down, 0, rim);
      if (!in(r, c + 1)) line(picture, nw + e, nw + e + down, 0, rim);
    }
  }
  for (std::size_t a = std::min<std::size_t>(overdue.areas.size(), 6); a-- > 0;)
    number(picture, overdue.areas[a].middle, overdue.areas[a].number);
  return picture;
}

}  // namespace lodeway::tasks::detail
