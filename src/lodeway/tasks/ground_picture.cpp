#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/tasks/ground.hpp"
#include "lodeway/tasks/io_progress.hpp"
#include "lodeway/tasks/map_picture.hpp"

namespace lodeway::tasks {

namespace {
/// Crests and valley floors of the relief, thin, so that one sees what was derived: no sheet has
/// them, as contours say it there.
void draw_shapes(sheet::Page& page, const sheet::MapFrame& f, const mapdata::MapData& map) {
  for (const auto& line : map.lines) {
    const bool crest = line.label.kind == mapdata::Kind::ridge_line;
    if (!crest && line.label.kind != mapdata::Kind::valley_line) continue;
    std::vector<sheet::Mm> on_page;
    for (const auto& p : line.points) on_page.push_back(f.on_page(p));
    page.stroke(std::move(on_page), crest
                                        ? sheet::Pen{sheet::ink::peat, 0.28, {0.9, 0.5, 0.15, 0.5}}
                                        : sheet::Pen{sheet::ink::tarn, 0.2, {0.5, 0.8}});
  }
}

}  // namespace

Result<void> picture_ground(const std::string& path, const std::string& png, Progress* progress) {
  const auto ground = io::open_ground(path, io_progress(progress));
  if (!ground) return std::unexpected(ground.error());
  return draw_map_picture(*ground, ground->elevation.frame(), png,
                          [&](sheet::Page& page, sheet::Labels&, const sheet::MapFrame& frame) {
                            draw_shapes(page, frame, ground->map);
                          });
}

Result<void> picture_seen(const walking::Ground& ground, const terrain::Raster<std::uint8_t>& seen,
                          std::span<const earth::GridPoint> eyes, const std::string& png) {
  const auto over = [&](sheet::Page& page, sheet::Labels&, const sheet::MapFrame& frame) {
    draw_shapes(page, frame, ground.map);
    draw_mask(
        page, frame, seen.frame(), [&](int r, int c) { return seen[r, c] == 0; },
        sheet::ink::faint(sheet::ink::night, 0.24));
    for (const auto& eye : eyes) {
      std::vector<sheet::Mm> ring;
      for (int i = 0; i < 24; ++i) {
        const double turn = i * std::numbers::pi / 12;
        const auto p = frame.on_page(eye);
        ring.push_back({p.x + 1.8 * std::cos(turn), p.y + 1.8 * std::sin(turn)});
      }
      page.stroke(ring, {sheet::ink::paper, 1.4}, true);
      page.stroke(std::move(ring), {sheet::ink::night, 0.6}, true);
    }
  };
  return draw_map_picture(ground, ground.elevation.frame(), png, over);
}

}  // namespace lodeway::tasks
