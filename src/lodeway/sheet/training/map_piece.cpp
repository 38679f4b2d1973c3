#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/sheet/map/map_hatch.hpp"
#include "lodeway/sheet/map/map_margin.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/sheet/training/training_page.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;
constexpr double scale = 25000, ring_mm = 1.7, cross_mm = 1.5, open_mm = 0.45, place_mm = 0.35,
                 arrows_mm = 9;
/// Marks at one place share their names; places further apart stand beside each other.
constexpr double one_place_m = 20;

/// Small rooms along a thin line, so that nothing is set on it.
std::vector<Room> rooms_along(Mm from, Mm to) {
  constexpr double half_mm = 0.3;
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const int n = 1 + static_cast<int>(length / half_mm);
  std::vector<Room> out;
  for (int i = 0; i <= n; ++i) {
    const double t = static_cast<double>(i) / n;
    const Mm p{from.x + t * (to.x - from.x), from.y + t * (to.y - from.y)};
    out.push_back({p.x - half_mm, p.y - half_mm, p.x + half_mm, p.y + half_mm});
  }
  return out;
}

/// Set in the first free room round about, with a thin line from the place to it.
bool name_by_line(Page& page, Labels& labels, const std::string& name, Mm at, double clear_mm,
                  const Type& type) {
  constexpr double furthest_mm = 40, step_mm = 2, clear_of_name_mm = 0.6, own_mm = 3.2;
  constexpr int ways = 24;
  const double w = page.width(name, type), up = 0.36 * type.size_mm;
  // First without the line over anything that is set, then over what may be.
  for (const bool strict : {true, false}) {
    for (double off = own_mm + 1.5; off <= furthest_mm; off += step_mm) {
      for (int k = 0; k < ways; ++k) {
        const double turn = 2 * std::numbers::pi * k / ways;
        const double east = std::sin(turn), south = -std::cos(turn);
        const Mm end{at.x + off * east, at.y + off * south};
        const auto anchor = east > 0.3    ? Anchor::left
                            : east < -0.3 ? Anchor::right
                                          : Anchor::middle;
        const double side = anchor == Anchor::left    ? clear_of_name_mm
                            : anchor == Anchor::right ? -clear_of_name_mm
                                                      : 0;
        // Above or below the line's end where it comes from below or above.
        const double drop = anchor == Anchor::middle
                                ? (south > 0 ? 0.78 * type.size_mm + clear_of_name_mm
                                             : -0.22 * type.size_mm - clear_of_name_mm)
                                : up;
        const Mm text{end.x + side, end.y + drop};
        // What stands on the place itself is not in the line's way.
        const auto line = rooms_along({at.x + own_mm * east, at.y + own_mm * south}, end);
        if (strict && !std::ranges::all_of(line, [&](const Room& r) { return labels.free(r); }))
          continue;
        if (!labels.take(room_of(text, w, type.size_mm, anchor))) continue;
        const std::vector<Mm> stroke{{at.x + 0.8 * clear_mm * east, at.y + 0.8 * clear_mm * south},
                                     end};
        if (strict) page.stroke(stroke, {ink::paper, 0.8});
        page.stroke(stroke, {type.ink, 0.22});
        page.text(name, text, type, anchor);
        for (const auto& room : line) labels.hold(room);
        return true;
      }
    }
  }
  return false;
}

/// Set beside the place where there is room, else further off with a line to it, and where there is
/// none near all the same.
void name_surely(Page& page, Labels& labels, const std::string& name, Mm at, double clear_mm,
                 const Type& type) {
  if (name_beside(page, labels, name, at, clear_mm, type) ||
      name_by_line(page, labels, name, at, clear_mm, type))
    return;
  const Mm beside{at.x + clear_mm, at.y + 0.36 * type.size_mm};
  labels.hold(room_of(beside, page.width(name, type), type.size_mm, Anchor::left));
  page.text(name, beside, type);
}

struct Mark {
  earth::GridPoint at;
  std::string names;
  bool end = false;
};
void add_mark(std::vector<Mark>& marks, earth::GridPoint at, const std::string& name, bool end) {
  const auto same = std::ranges::find_if(marks, [&](const Mark& m) {
    return m.end == end && earth::grid_distance_m(m.at, at) < one_place_m;
  });
  if (same != marks.end()) {
    same->names += " " + name;
  } else {
    marks.push_back({at, name, end});
  }
}

/// A ring, or a cross that is open in the middle: what is to be found shows through it.
void draw_mark(Page& page, Mm at, bool end, const Pen& ring, const Pen& cross) {
  if (!end) {
    page.stroke(circle(at, ring_mm), ring, true);
    return;
  }
  std::vector<std::vector<Mm>> arms;
  for (const double east : {-1.0, 1.0}) {
    for (const double south : {-1.0, 1.0})
      arms.push_back({{at.x + open_mm * east, at.y + open_mm * south},
                      {at.x + cross_mm * east, at.y + cross_mm * south}});
  }
  page.strokes(arms, cross);
}

std::vector<Mark> marks_of(const learn::TrainingDay& day,
                           const std::vector<earth::GridPoint>& walk) {
  const auto l = day.language;
  std::vector<Mark> out;
  add_mark(out, day.from, "", false);
  if (!walk.empty()) {
    const auto name = day.forks ? in(l, "forks", "Abzweige") : in(l, "time", "Zeit");
    add_mark(out, walk.front(), name, false);
    add_mark(out, walk.back(), name, true);
  }
  const auto numbered = [](const char* letter, std::size_t i) {
    return fmt::format("{}{}", letter, i + 1);
  };
  for (std::size_t i = 0; i < day.bearings.size(); ++i) {
    add_mark(out, day.bearings[i].from, numbered("B", i), false);
    add_mark(out, day.bearings[i].peg, numbered("B", i), true);
  }
  for (std::size_t i = 0; i < day.features.size(); ++i) {
    add_mark(out, day.features[i].from, numbered("F", i), false);
    add_mark(out, day.features[i].at, numbered("F", i), true);
  }
  // Where a drop is stays off the piece; the last sure place is theirs to know.
  for (std::size_t i = 0; i < day.drops.size(); ++i)
    add_mark(out, day.drops[i].sure, numbered("D", i), false);
  for (std::size_t i = 0; i < day.paces.size(); ++i) {
    if (day.paces[i].ground != learn::PaceGround::down)
      add_mark(out, day.paces[i].from, numbered("P", i), false);
  }
  for (std::size_t i = 0; i < day.times.size(); ++i) {
    add_mark(out, day.times[i].line.front(), numbered("T", i), false);
    if (i + 1 == day.times.size()) add_mark(out, day.times[i].line.back(), numbered("T", i), true);
  }
  // What else begins at the start stands before it: a place's name follows.
  auto& first = out.front().names;
  first += (first.empty() ? "" : " ") + std::string("Start, ") + day.from_words;
  if (first.front() == ' ') first.erase(0, 1);
  return out;
}

/// The walk with arrows along it.
void draw_walk(Page& page, const std::vector<Mm>& line) {
  page.stroke(line, {ink::paper, 1.5, {}, true});
  page.stroke(line, {ink::night, 0.6, {2.2, 1.0}, false});
  each_step(line, arrows_mm, [&](Mm at, Mm way) {
    const Mm across{-way.y, way.x};
    const auto corner = [&](double on, double off) {
      return Mm{at.x + on * way.x + off * across.x, at.y + on * way.y + off * across.y};
    };
    page.shape({{corner(1.9, 0), corner(-1.1, 1.3), corner(-1.1, -1.3)}}, ink::night,
               {ink::paper, 0.3});
  });
}

/// Forks in their order; one that is met twice has both figures.
void draw_fork_figures(Page& page, Labels& labels, const MapFrame& f, const learn::ForkWalk& walk) {
  std::vector<Mark> at;
  for (std::size_t i = 0; i < walk.forks.size(); ++i)
    add_mark(at, walk.forks[i].at, fmt::format("{}", i + 1), false);
  for (const auto& fork : at) {
    const auto place = f.on_page(fork.at);
    page.fill({circle(place, 0.8)}, ink::night);
    name_surely(page, labels, fork.names, place, 1.5, {Face::figures_bold, 2.6, ink::night, 0.9});
  }
}

/// The names that the desk's items use, each at its place; the map's other names leave them free.
struct DeskNames {
  mapdata::MapData left;   ///< the map's other names
  std::vector<Mm> places;  ///< where the named places are
};
DeskNames draw_desk_names(Page& page, Labels& labels, const MapFrame& f,
                          const learn::TrainingDay& day, const mapdata::MapData& all) {
  std::vector<Mm> dots;
  constexpr double same_m = 50;
  mapdata::MapData map;
  std::ranges::copy_if(all.points, std::back_inserter(map.points),
                       [&](const auto& p) { return f.near(p.at); });
  std::ranges::copy_if(all.lines, std::back_inserter(map.lines),
                       [&](const auto& x) { return !x.label.name.empty() && f.touches(x.points); });
  std::ranges::copy_if(all.areas, std::back_inserter(map.areas),
                       [&](const auto& x) { return f.touches(x.outer); });
  std::vector<Mark> places;
  const auto add = [&](earth::GridPoint at, const std::string& name) {
    if (std::ranges::none_of(places, [&](const Mark& m) { return m.names == name; }))
      places.push_back({at, name, false});
  };
  for (const auto& s : day.settings) {
    add(s.from, s.from_words);
    add(s.to, s.to_words);
  }
  // The start has its name beside its ring.
  std::erase_if(places, [&](const Mark& m) { return m.names == day.from_words; });
  for (auto& p : map.points) {
    if (p.label.name == day.from_words) p.label.name.clear();
  }
  for (const auto& place : places) {
    if (!f.near(place.at)) continue;
    auto words = place.names;
    for (auto& p : map.points) {
      if (p.label.name != place.names || earth::grid_distance_m(p.at, place.at) > same_m) continue;
      p.label.name.clear();
      if (p.label.kind == mapdata::Kind::summit && std::isfinite(p.height_m) && p.height_m > 0)
        words += fmt::format(" {:.0f}", p.height_m);
      p.height_m = std::nan("");
    }
    const auto at = f.on_page(place.at);
    name_surely(page, labels, words, at, 1.5, {Face::words_bold, 2.5, ink::text, 0.8});
    dots.push_back(at);
  }
  return {std::move(map), std::move(dots)};
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
  const double contour_m = contour_interval_m(scale);
  const auto heights = cut_to(paper.ground.elevation, f);
  draw_surfaces(page, f, paper.ground.map);
  draw_shade(page, f, heights);
  (void)draw_unknown(page, f, heights);
  const auto contours = draw_contours(page, f, heights, contour_m);
  draw_lines(page, f, paper.ground.map, paper.ground.elevation);
  draw_grid(page, f);
  draw_points(page, labels, f, paper.ground.map);
  // Without forks enough the line still serves for distance by time.
  std::vector<earth::GridPoint> walk;
  if (day.forks) walk = day.forks->line;
  for (const auto& t : day.times) {
    if (!day.forks) walk.insert(walk.end(), t.line.begin(), t.line.end());
  }
  const auto line = on_page(f, walk, 0.2);
  if (!walk.empty()) {
    draw_walk(page, line);
    each_step(line, 1.2,
              [&](Mm at, Mm) { labels.hold({at.x - 0.7, at.y - 0.7, at.x + 0.7, at.y + 0.7}); });
  }
  const auto marks = marks_of(day, walk);
  for (const auto& m : marks) {
    if (!f.near(m.at, -3)) continue;
    const auto at = f.on_page(m.at);
    draw_mark(page, at, m.end, {ink::paper, 1.2}, {ink::paper, 0.9});
    labels.hold({at.x - 2, at.y - 2, at.x + 2, at.y + 2});
  }
  for (const auto& m : marks) {
    if (f.near(m.at, -3))
      name_surely(page, labels, m.names, f.on_page(m.at), 2.4,
                  {Face::figures_bold, 3.0, ink::night, 0.9});
  }
  if (day.forks) draw_fork_figures(page, labels, f, *day.forks);
  const auto desk = draw_desk_names(page, labels, f, day, paper.ground.map);
  draw_names(page, labels, f, desk.left, &heights);
  draw_contour_figures(page, labels, f, contours, {&heights, {line}, false});
  // Over the light rims of all marks and names: none wipes out another's ring, cross or place.
  for (const auto& m : marks) {
    if (f.near(m.at, -3))
      draw_mark(page, f.on_page(m.at), m.end, {ink::night, 0.5}, {ink::night, 0.45});
  }
  for (const auto& at : desk.places) page.fill({circle(at, place_mm)}, ink::text);
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
      said(
          l,
          "Ring: from here. Cross: to here. Contours each {:.0f} m. Magnetic north lies {:.1f}° {} "
          "of grid north.",
          "Ring: von hier. Kreuz: nach hier. Höhenlinien alle {:.0f} m. Magnetisch-Nord liegt "
          "{:.1f}° {} von Gitter-Nord.",
          contour_m, std::abs(day.magnetic_from_grid_deg),
          day.magnetic_from_grid_deg >= 0 ? in(l, "east", "östlich") : in(l, "west", "westlich")),
      {edge + 52, y - 0.4}, wide - 52, words(8.5), Anchor::left, 0.6);
  draw_key(page, f, paper.ground, {edge, y + 4.4}, l);
  std::string sources;
  for (const auto& s : paper.ground.sources) {
    if (!s.attribution.empty() && sources.find(s.attribution) == std::string::npos)
      sources += (sources.empty() ? "" : "; ") + s.attribution;
  }
  page.paragraph(sources.empty() ? in(l, "Sources: none named in the ground file.",
                                      "Quellen: in der Datei keine genannt.")
                                 : in(l, "Sources: ", "Quellen: ") + sources,
                 {edge, y + 10}, wide, words(7.5, false, ink::stone), 3.2, 3);
  return page.take();
}

}  // namespace lodeway::sheet
