#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/map/map_margin.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/sheet/training/training_page.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;
constexpr double scale = 25000;

void mark(Page& page, Labels& labels, Mm at, const std::string& name, bool end) {
  if (end) {
    page.stroke({{at.x - 1.4, at.y - 1.4}, {at.x + 1.4, at.y + 1.4}}, {ink::paper, 1.2});
    page.stroke({{at.x - 1.4, at.y - 1.4}, {at.x + 1.4, at.y + 1.4}}, {ink::night, 0.45});
    page.stroke({{at.x - 1.4, at.y + 1.4}, {at.x + 1.4, at.y - 1.4}}, {ink::night, 0.45});
  } else {
    page.stroke(circle(at, 1.7), {ink::paper, 1.2}, true);
    page.stroke(circle(at, 1.7), {ink::night, 0.5}, true);
  }
  labels.hold({at.x - 2, at.y - 2, at.x + 2, at.y + 2});
  (void)name_beside(page, labels, name, at, 2.4, {Face::figures_bold, 3.0, ink::night, 0.9});
}
}  // namespace

Drawing draw_map_piece(const TrainingPaper& paper, const TextMeasure& measure) {
  const auto& day = paper.day;
  const auto l = day.language;
  const auto title = in(l, "Training day: map piece, 1:25 000", "Übungstag: Kartenstück 1:25 000");
  Page page(page_w, page_h, title, measure);
  MapFrame f;
  f.at = {edge, 24};
  f.w = learn::piece_east_m * 1000 / scale;
  f.h = learn::piece_north_m * 1000 / scale;
  f.scale = scale;
  f = centred(f, day.from);
  page.fitted(title, {edge, 15}, 130, words(13, true));
  page.fitted(paper.code, {page_w - edge, 15}, 46, figures(10), Anchor::right);
  Labels labels({f.at.x, f.at.y, f.at.x + f.w, f.at.y + f.h});
  page.clip(f.at.x, f.at.y, f.w, f.h);
  const auto show = [&](earth::GridPoint p, const std::string& name, bool end) {
    if (f.near(p, -3)) mark(page, labels, f.on_page(p), name, end);
  };
  draw_ground(page, labels, f, paper.ground, contour_interval_m(scale), false);
  draw_grid(page, f);
  // Without forks enough the line still serves for distance by time.
  std::vector<earth::GridPoint> walk;
  if (day.forks) walk = day.forks->line;
  for (const auto& t : day.times) {
    if (!day.forks) walk.insert(walk.end(), t.line.begin(), t.line.end());
  }
  if (!walk.empty()) {
    const auto line = on_page(f, walk, 0.2);
    page.stroke(line, {ink::paper, 1.5, {}, true});
    page.stroke(line, {ink::night, 0.6, {2.2, 1.0}, false});
    const auto name = day.forks ? in(l, "forks", "Abzweige") : in(l, "time", "Zeit");
    show(walk.front(), name, false);
    show(walk.back(), name, true);
  }
  for (std::size_t i = 0; i < day.bearings.size(); ++i) {
    show(day.bearings[i].from, fmt::format("B{}", i + 1), false);
    show(day.bearings[i].peg, fmt::format("B{}", i + 1), true);
  }
  for (std::size_t i = 0; i < day.features.size(); ++i)
    show(day.features[i].at, fmt::format("F{}", i + 1), true);
  for (std::size_t i = 0; i < day.paces.size(); ++i) {
    if (day.paces[i].ground != learn::PaceGround::down)
      show(day.paces[i].from, fmt::format("P{}", i + 1), false);
  }
  show(day.from, "Start", false);
  page.unclip();
  page.frame(f.at.x, f.at.y, f.w, f.h, {ink::text, 0.3});
  draw_grid_figures(page, f, {Face::figures, 2.6, ink::text});
  const double y = f.at.y + f.h + 9;
  // 1 km, in tenths.
  for (int i = 0; i < 10; ++i)
    page.box(edge + 4.0 * i, y - 2, 4, 1.6, i % 2 == 0 ? ink::night : ink::paper);
  page.frame(edge, y - 2, 40, 1.6, {ink::night, 0.25});
  page.text("1 km", {edge + 42, y - 0.4}, words(8.5));
  page.fitted(
      said(l, "Ring: from here. Cross: to here. Magnetic north lies {:.1f}° {} of grid north.",
           "Ring: von hier. Kreuz: nach hier. Magnetisch-Nord liegt {:.1f}° {} von Gitter-Nord.",
           std::abs(day.magnetic_from_grid_deg),
           day.magnetic_from_grid_deg >= 0 ? in(l, "east", "östlich") : in(l, "west", "westlich")),
      {edge + 56, y - 0.4}, wide - 56, words(8.5));
  std::string sources;
  for (const auto& s : paper.ground.sources) {
    if (!s.attribution.empty() && sources.find(s.attribution) == std::string::npos)
      sources += (sources.empty() ? "" : "; ") + s.attribution;
  }
  page.paragraph(sources.empty() ? in(l, "Sources: none named in the ground file.",
                                      "Quellen: in der Datei keine genannt.")
                                 : in(l, "Sources: ", "Quellen: ") + sources,
                 {edge, y + 5}, wide, words(7.5, false, ink::stone), 3.2, 3);
  return page.take();
}

}  // namespace lodeway::sheet
