#include "lodeway/tasks/map_sign.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/io/pdf/picture.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/sheet/map/map_tile.hpp"

namespace lodeway::tasks {

namespace {

using earth::GridPoint;
using mapdata::Kind;

constexpr double scale = 25000, level_m = 100;

/// Across the whole sign, with a bend that shows how the symbol turns.
std::vector<GridPoint> across(double wide_m, double high_m) {
  std::vector<GridPoint> out;
  constexpr int pieces = 24;
  for (int i = -2; i <= pieces + 2; ++i) {
    const double t = static_cast<double>(i) / pieces;
    out.push_back({t * wide_m, high_m / 2 + 0.12 * high_m * std::sin(t * 6.28)});
  }
  return out;
}

walking::Ground with(Kind kind, double wide_m, double high_m) {
  walking::Ground out;
  constexpr double cell_m = 5;
  terrain::Frame frame{-200, high_m + 200, cell_m, static_cast<int>((high_m + 400) / cell_m),
                       static_cast<int>((wide_m + 400) / cell_m)};
  out.elevation = terrain::Elevation(frame, static_cast<float>(level_m));
  const mapdata::Label label{kind, "", mapdata::Origin::mapped};
  if (kind <= Kind::aerialway) {
    mapdata::LineFeature line;
    line.label = label;
    line.points = across(wide_m, high_m);
    if (kind == Kind::cliff) line.falls = mapdata::Side::right;
    out.map.lines.push_back(std::move(line));
  } else if (kind <= Kind::forbidden) {
    const double e = 0.08 * wide_m, n = 0.14 * high_m;
    mapdata::AreaFeature area;
    area.label = label;
    area.outer = {{e, n}, {wide_m - e, n}, {wide_m - e, high_m - n}, {e, high_m - n}};
    out.map.areas.push_back(std::move(area));
  } else if (kind != Kind::other) {
    out.map.points.push_back({label, {wide_m / 2, high_m / 2}, level_m});
  }
  return out;
}

}  // namespace

Result<std::string> map_sign(Kind kind, int dots, bool dark) {
  sheet::MapFrame frame;
  frame.at = {0, 0};
  frame.page_w = frame.w = sign_wide_px * sheet::screen_px_mm;
  frame.page_h = frame.h = sign_high_px * sheet::screen_px_mm;
  frame.scale = scale;
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  const auto ground = with(kind, frame.metres(frame.w), frame.metres(frame.h));
  sheet::TileLook look;
  look.names = false;
  auto picture = io::paint(sheet::draw_map_block(ground, frame, look, **measure), 96.0 * dots);
  if (!picture) return std::unexpected(picture.error());
  if (dark) io::darken(*picture);
  return io::png_bytes(*picture);
}

}  // namespace lodeway::tasks
