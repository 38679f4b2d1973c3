#include <algorithm>
#include <cmath>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/labels.hpp"
#include "lodeway/sheet/map_sheet.hpp"
#include "lodeway/tasks/ground.hpp"

namespace lodeway::tasks {

namespace {
/// About twenty-five contours between the lowest and the highest, at a step from 1, 2, 5, 10 … m.
double contour_step_m(const GroundSummary& s) {
  const double wanted = std::max((s.max_m - s.min_m) / 25, 1.0);
  const double ten = std::pow(10, std::floor(std::log10(wanted)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * ten >= wanted) return step * ten;
  }
  return 10 * ten;
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
  page.unclip();
  return io::write_png(page.take(), png, dots_per_inch);
}

}  // namespace lodeway::tasks
