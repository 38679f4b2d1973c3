#include "lodeway/tasks/map_picture.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"
#include "lodeway/terrain/contours.hpp"

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

/// About twenty-five contours between the lowest and the highest that is shown.
double contour_step_m(const terrain::Elevation& heights, const terrain::Frame& shown) {
  double least = 1e9, most = -1e9;
  const auto [top, left] = heights.frame().cell_of({shown.west_m, shown.north_m});
  const auto [bottom, right] = heights.frame().cell_of({shown.east_m(), shown.south_m()});
  for (int r = std::max(top, 0); r <= std::min(bottom, heights.frame().rows - 1); ++r) {
    for (int c = std::max(left, 0); c <= std::min(right, heights.frame().cols - 1); ++c) {
      const auto z = static_cast<double>(heights[r, c]);
      if (!std::isfinite(z)) continue;
      least = std::min(least, z);
      most = std::max(most, z);
    }
  }
  return round_step(std::max(1.0, (most - least) / 25));
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

/// Ground where nobody may walk.
void draw_forbidden(sheet::Page& page, const sheet::MapFrame& f, const mapdata::MapData& map) {
  for (const auto& area : map.areas) {
    if (area.label.kind != mapdata::Kind::forbidden) continue;
    std::vector<sheet::Mm> ring;
    for (const auto& p : area.outer) ring.push_back(f.on_page(p));
    page.shape({ring}, sheet::ink::faint(sheet::ink::rowan_pale, 0.6), {sheet::ink::rowan, 0.3});
  }
}

/// Lines of the grid, and at their ends the last two figures of the kilometres.
void draw_grid(sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& f) {
  constexpr double least_mm = 10;
  const double step_m = round_step(std::max(1000.0, f.metres(least_mm)));
  const sheet::Type type{sheet::Face::figures_bold, 2.6, sheet::ink::text, 0.6};
  const auto figures = [](double m) {
    return fmt::format("{:02}", static_cast<long>(std::floor(m / 1000)) % 100);
  };
  const sheet::Pen pen{sheet::ink::rule, 0.15};
  for (double e = std::ceil(f.south_west.east_m / step_m) * step_m; e < f.east_m(); e += step_m) {
    const double x = f.on_page({e, f.south_west.north_m}).x;
    page.stroke({{x, 0}, {x, f.h}}, pen);
    page.text(figures(e), {x, 3.4}, type, sheet::Anchor::middle);
    labels.hold({x - 2, 0.8, x + 2, 4});
  }
  for (double n = std::ceil(f.south_west.north_m / step_m) * step_m; n < f.north_m(); n += step_m) {
    const double y = f.on_page({f.south_west.east_m, n}).y;
    page.stroke({{0, y}, {f.w, y}}, pen);
    page.text(figures(n), {f.w - 1, y + 0.9}, type, sheet::Anchor::right);
    labels.hold({f.w - 5, y - 1.5, f.w, y + 1.5});
  }
}

/// In the upper left corner, a line each.
void draw_key(sheet::Page& page, sheet::Labels& labels, const std::vector<KeyLine>& key) {
  if (key.empty()) return;
  const sheet::Type type{sheet::Face::words, 2.8, sheet::ink::text, 0};
  double wide = 0;
  for (const auto& line : key) wide = std::max(wide, page.width(line.words, type));
  const double high = 4.4 * static_cast<double>(key.size()) + 1.6;
  page.box(0, 5, wide + 11, high, sheet::ink::paper);
  for (std::size_t k = 0; k < key.size(); ++k) {
    const double y = 6.2 + 4.4 * static_cast<double>(k);
    page.box(2, y, 5, 3, key[k].ink);
    page.frame(2, y, 5, 3, {sheet::ink::text, 0.15});
    page.text(key[k].words, {9, y + 2.4}, type);
  }
  labels.hold({0, 5, wide + 11, 5 + high});
}

}  // namespace

Result<void> draw_map_picture(const walking::Ground& ground, const terrain::Frame& shown,
                              const std::string& png, const DrawOver& over,
                              const std::vector<KeyLine>& key) {
  constexpr double longer_side_mm = 250, dots_per_inch = 150;
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  sheet::MapFrame frame;
  const double wide = shown.cell_m * shown.cols, high = shown.cell_m * shown.rows;
  frame.scale = std::max(wide, high) * 1000 / longer_side_mm;
  frame.at = {0, 0};
  frame.page_w = frame.w = std::max(frame.mm(wide), 1.0);
  frame.page_h = frame.h = std::max(frame.mm(high), 1.0);
  frame.south_west = {shown.west_m, shown.south_m()};
  sheet::Page page(frame.page_w, frame.page_h, ground.name, **measure);
  sheet::Labels labels(sheet::Room{0, 0, frame.w, frame.h});
  page.clip(0, 0, frame.w, frame.h);
  sheet::draw_ground(page, labels, frame, ground, contour_step_m(ground.elevation, shown), false);
  draw_forbidden(page, frame, ground.map);
  draw_mask(
      page, frame, shown,
      [&](int r, int c) {
        return !std::isfinite(terrain::height_at(ground.elevation, shown.centre(r, c)));
      },
      sheet::ink::faint(sheet::ink::rule, 0.45));
  over(page, labels, frame);
  draw_grid(page, labels, frame);
  draw_key(page, labels, key);
  draw_scale(page, labels, frame);
  draw_credit(page, labels, frame, ground.sources);
  sheet::draw_names(page, labels, frame, ground.map);
  page.unclip();
  return io::write_png(page.take(), png, dots_per_inch);
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

double level_holding(std::span<const float> shares, double part) {
  std::vector<float> sorted;
  double all = 0, held = 0;
  for (const float v : shares) {
    if (!(v > 0)) continue;
    sorted.push_back(v);
    all += static_cast<double>(v);
  }
  std::ranges::sort(sorted, std::greater{});
  for (const float v : sorted) {
    held += static_cast<double>(v);
    if (held >= part * all) return static_cast<double>(v);
  }
  return 0;
}

void draw_way_line(sheet::Page& page, const sheet::MapFrame& frame, const trip::PlannedWay& way) {
  for (const auto& leg : way.legs) {
    std::vector<sheet::Mm> line;
    for (const auto& p : leg.course.line) line.push_back(frame.on_page(p));
    page.stroke(line, {sheet::ink::paper, 1.2, {}, true});
    page.stroke(std::move(line), {sheet::ink::night, 0.5, {}, true});
  }
}

void draw_numbered(sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& frame,
                   earth::GridPoint at, const std::string& words) {
  const auto p = frame.on_page(at);
  page.shape({sheet::circle(p, 2.5)}, sheet::ink::paper, {sheet::ink::night, 0.45});
  page.text(words, {p.x, p.y + 1.1}, {sheet::Face::figures_bold, 3.2, sheet::ink::night},
            sheet::Anchor::middle);
  labels.hold({p.x - 2.7, p.y - 2.7, p.x + 2.7, p.y + 2.7});
}

sheet::Ink share_ink(double strength) { return {0x8A, 0x1E, 0x5C, strength}; }

}  // namespace lodeway::tasks
