#include "lodeway/tasks/map_tile.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/io/pdf/few_colours.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/sheet/map/map_tile.hpp"

namespace lodeway::tasks {

namespace {
constexpr double level_scale = 25000;  // one level is exactly this
constexpr int closer_levels = 3;       // and this many times it is halved
constexpr double metres_per_px_at(double paper_scale) { return sheet::screen_px_mm * paper_scale / 1000; }
}  // namespace

bool TilePyramid::holds(int level, int x, int y) const {
  if (level < 0 || level >= static_cast<int>(metres_per_px.size()) || x < 0 || y < 0) return false;
  const double side = tile_px * metres_per_px[static_cast<std::size_t>(level)];
  return x * side < wide_m && y * side < high_m;
}

TilePyramid tile_pyramid(const terrain::Frame& f) {
  TilePyramid out;
  out.origin = {f.west_m, f.north_m};
  out.wide_m = f.cell_m * f.cols;
  out.high_m = f.cell_m * f.rows;
  double metres = metres_per_px_at(level_scale) / std::exp2(closer_levels);
  for (;; metres *= 2) {
    out.metres_per_px.insert(out.metres_per_px.begin(), metres);
    if (std::max(out.wide_m, out.high_m) <= 2 * TilePyramid::tile_px * metres) return out;
  }
}

Result<std::vector<std::string>> draw_tile_block(const walking::Ground& ground,
                                                 const TilePyramid& pyramid, int level, int bx,
                                                 int by, const TileStyle& style) {
  constexpr int side = TilePyramid::block_side, px = TilePyramid::tile_px;
  // Before the products below: a block number from outside may be anything.
  constexpr int most_blocks = 1 << 20;
  if (bx < 0 || by < 0 || bx > most_blocks || by > most_blocks ||
      !pyramid.holds(level, bx * side, by * side)) {
    return fail(FaultCode::bad_input, "tile: expected one that lies on the ground");
  }
  const double metres = pyramid.metres_per_px[static_cast<std::size_t>(level)];
  sheet::MapFrame frame;
  frame.at = {0, 0};
  frame.page_w = frame.page_h = frame.w = frame.h = side * px * sheet::screen_px_mm;
  frame.scale = metres * 1000 / sheet::screen_px_mm;
  const double wide_m = side * px * metres;
  frame.south_west = {pyramid.origin.east_m + bx * wide_m,
                      pyramid.origin.north_m - (by + 1) * wide_m};
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  const auto drawing = sheet::draw_map_block(
      ground, frame, {style.slope, style.names, static_cast<double>(style.keep_off_deg)}, **measure);
  auto picture = io::paint(drawing, 96.0 * style.dots);
  if (!picture) return std::unexpected(picture.error());
  if (style.dark) io::darken(*picture);
  const auto few = io::in_few_colours(*picture);
  std::vector<std::string> out(side * side);
  for (int k = 0; k < side * side; ++k) {
    const int col = k % side, row = k / side;
    if (!pyramid.holds(level, bx * side + col, by * side + row)) continue;
    const int tile = px * style.dots;
    auto png = io::png_bytes(few, col * tile, row * tile, tile, tile);
    if (!png) return std::unexpected(png.error());
    out[static_cast<std::size_t>(k)] = *std::move(png);
  }
  return out;
}

}  // namespace lodeway::tasks
