#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/draw/labels.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"
#include "lodeway/tasks/ground.hpp"
#include "lodeway/terrain/contours.hpp"
#include "lodeway/tasks/io_progress.hpp"

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
    page.stroke(std::move(on_page), crest
                                        ? sheet::Pen{sheet::ink::peat, 0.28, {0.9, 0.5, 0.15, 0.5}}
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

/// Whom to thank, in the lower right corner: licences ask for it on whatever shows the data.
void draw_credit(sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& f,
                 const std::vector<mapdata::Source>& sources) {
  std::vector<std::string> credits;
  for (const auto& source : sources) {
    if (source.attribution.empty()) continue;
    if (std::ranges::find(credits, source.attribution) == credits.end()) {
      credits.push_back(source.attribution);
    }
  }
  if (credits.empty()) return;
  const sheet::Type type{sheet::Face::words, 2.2, sheet::ink::stone, 0};
  const std::string words = page.cut(fmt::format("{}", fmt::join(credits, " · ")), 0.6 * f.w, type);
  const double w = page.width(words, type) + 3;
  page.box(f.w - w, f.h - 4, w, 4, sheet::ink::paper);
  page.text(words, {f.w - 1.5, f.h - 1.3}, type, sheet::Anchor::right);
  labels.hold({f.w - w, f.h - 4, f.w, f.h});
}

/// Cells of which `in` holds, under a tint.
void draw_mask(sheet::Page& page, const sheet::MapFrame& f, const terrain::Frame& cells,
               const std::function<bool(int, int)>& in, const sheet::Ink& tint) {
  // One cell more on each side, so that every outline closes.
  terrain::Frame wider{cells.west_m - cells.cell_m, cells.north_m + cells.cell_m, cells.cell_m,
                       cells.rows + 2, cells.cols + 2};
  terrain::Elevation field(wider, 0.0F);
  for (int r = 0; r < cells.rows; ++r) {
    for (int c = 0; c < cells.cols; ++c) field[r + 1, c + 1] = in(r, c) ? 2.0F : 0.0F;
  }
  std::vector<std::vector<sheet::Mm>> rings;
  for (const auto& outline : terrain::contours(field, 1)) {
    if (outline.height_m != 1) continue;
    auto& ring = rings.emplace_back();
    for (const auto& p : outline.points) ring.push_back(f.on_page(p));
  }
  if (!rings.empty()) page.fill(std::move(rings), tint);
}

/// Ground where nobody may walk.
void draw_forbidden(sheet::Page& page, const sheet::MapFrame& f, const mapdata::MapData& map) {
  for (const auto& area : map.areas) {
    if (area.label.kind != mapdata::Kind::forbidden) continue;
    std::vector<sheet::Mm> ring;
    for (const auto& p : area.outer) ring.push_back(f.on_page(p));
    page.shape({ring}, sheet::ink::faint(sheet::ink::rowan_pale, 0.6), {sheet::ink::rowan, 0.3});
  }
}

Result<void> draw_picture(const walking::Ground& ground, const std::string& png,
                          const std::function<void(sheet::Page&, const sheet::MapFrame&)>& over) {
  constexpr double longer_side_mm = 250, dots_per_inch = 150;
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  const terrain::Frame& f = ground.elevation.frame();
  sheet::MapFrame frame;
  const double wide = f.cell_m * f.cols, high = f.cell_m * f.rows;
  frame.scale = std::max(wide, high) * 1000 / longer_side_mm;
  frame.at = {0, 0};
  frame.page_w = frame.w = std::max(frame.mm(wide), 1.0);
  frame.page_h = frame.h = std::max(frame.mm(high), 1.0);
  frame.south_west = {f.west_m, f.south_m()};
  sheet::Page page(frame.page_w, frame.page_h, ground.name, **measure);
  sheet::Labels labels(sheet::Room{0, 0, frame.w, frame.h});
  page.clip(0, 0, frame.w, frame.h);
  sheet::draw_ground(page, labels, frame, ground, contour_step_m(summarise(ground)), false);
  draw_shapes(page, frame, ground.map);
  draw_forbidden(page, frame, ground.map);
  draw_mask(
      page, frame, f, [&](int r, int c) { return !terrain::is_height(ground.elevation[r, c]); },
      sheet::ink::faint(sheet::ink::rule, 0.45));
  over(page, frame);
  draw_scale(page, labels, frame);
  draw_credit(page, labels, frame, ground.sources);
  sheet::draw_names(page, labels, frame, ground.map);
  page.unclip();
  return io::write_png(page.take(), png, dots_per_inch);
}

}  // namespace

Result<void> picture_ground(const std::string& path, const std::string& png, Progress* progress) {
  const auto ground = io::open_ground(path, io_progress(progress));
  if (!ground) return std::unexpected(ground.error());
  return draw_picture(*ground, png, [](sheet::Page&, const sheet::MapFrame&) {});
}

Result<void> picture_seen(const walking::Ground& ground, const terrain::Raster<std::uint8_t>& seen,
                          std::span<const earth::GridPoint> eyes, const std::string& png) {
  return draw_picture(ground, png, [&](sheet::Page& page, const sheet::MapFrame& frame) {
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
  });
}

}  // namespace lodeway::tasks
