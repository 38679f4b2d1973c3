#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/labels.hpp"
#include "lodeway/sheet/map_sheet.hpp"
#include "lodeway/sheet/map_symbols.hpp"
#include "lodeway/tasks/ground.hpp"

namespace lodeway::tasks {

namespace {
/// The next of 1, 2, 5, 10 … that is not below.
double round_step(double wanted) {
  const double ten = std::pow(10, std::floor(std::log10(wanted)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * ten >= wanted) return step * ten;
  }
  return 10 * ten;
}

/// About twenty-five contours between the lowest and the highest.
double contour_step_m(const GroundSummary& s) {
  return round_step(std::max(1.0, (s.max_m - s.min_m) / 25));
}

/// Crests and valley floors of the relief, thin, so that one sees what was derived: no sheet has
/// them, as contours say it there.
void draw_shapes(sheet::Page& page, const sheet::MapFrame& f, const mapdata::MapData& map) {
  for (const auto& line : map.lines) {
    const bool crest = line.label.kind == mapdata::Kind::ridge_line;
    if (!crest && line.label.kind != mapdata::Kind::valley_line) continue;
    std::vector<sheet::Mm> on_page;
    for (const auto& p : line.points) on_page.push_back(f.on_page(p));
    page.stroke(std::move(on_page), crest ? sheet::Pen{sheet::ink::peat, 0.28, {0.9, 0.5, 0.15, 0.5}}
                                          : sheet::Pen{sheet::ink::tarn, 0.2, {0.5, 0.8}});
  }
}

/// A bar of a round length, about a fifth of the picture, in its lower left corner.
void draw_scale(sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& f) {
  const double length_m = round_step(f.metres(f.w / 8));
  const double x = 4, y = f.h - 4, w = f.mm(length_m);
  const std::string words =
      length_m >= 1000 ? fmt::format("{:g} km", length_m / 1000) : fmt::format("{:g} m", length_m);
  const sheet::Type type{sheet::Face::figures, 2.6, sheet::ink::text, 0.6};
  const double words_mm = page.width(words, type);
  page.box(x - 2, y - 3.5, w + words_mm + 6, 6, sheet::ink::paper);
  page.stroke({{x, y - 1.2}, {x, y}, {x + w, y}, {x + w, y - 1.2}}, {sheet::ink::text, 0.3});
  page.text(words, {x + w + 2, y}, type);
  labels.hold({x - 2, y - 3.5, x + w + words_mm + 4, y + 2.5});
}

}  // namespace

Result<void> picture_ground(const std::string& path, const std::string& png) {
  constexpr double longer_side_mm = 250, dots_per_inch = 150;
  const auto ground = io::open_ground(path);
  if (!ground) return std::unexpected(ground.error());
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  const terrain::Frame& f = ground->elevation.frame();
  sheet::MapFrame frame;
  const double wide = f.cell_m * f.cols, high = f.cell_m * f.rows;
  frame.scale = std::max(wide, high) * 1000 / longer_side_mm;
  frame.at = {0, 0};
  frame.page_w = frame.w = std::max(frame.mm(wide), 1.0);
  frame.page_h = frame.h = std::max(frame.mm(high), 1.0);
  frame.south_west = {f.west_m, f.south_m()};
  sheet::Page page(frame.page_w, frame.page_h, ground->name, **measure);
  sheet::Labels labels(sheet::Room{0, 0, frame.w, frame.h});
  page.clip(0, 0, frame.w, frame.h);
  sheet::draw_ground(page, labels, frame, *ground, contour_step_m(summarise(*ground)), false);
  draw_shapes(page, frame, ground->map);
  draw_scale(page, labels, frame);
  sheet::draw_names(page, labels, frame, ground->map);
  page.unclip();
  return io::write_png(page.take(), png, dots_per_inch);
}

}  // namespace lodeway::tasks
