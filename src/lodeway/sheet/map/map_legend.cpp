#include "lodeway/sheet/map/map_legend.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <span>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::sheet {

namespace {

using mapdata::Kind;
using mapdata::MapData;

constexpr double swatch_w_mm = 7.4, swatch_h_mm = 3.7, usual_row_mm = 4.5, least_cell_mm = 21;

/// One entry: its words, and the hand that draws its sign into a small map.
struct Sign {
  std::string words;
  std::function<void(Page&, const MapFrame&)> draw;
};

enum class Form : unsigned char { line, area, point };

/// Kinds that the map draws alike are one sign, named by those that occur.
struct GroundSign {
  Form form;
  std::vector<Kind> kinds;
};

const std::vector<GroundSign>& ground_signs() {
  using enum Kind;
  static const std::vector<GroundSign> all{{Form::line, {cliff}},
                                           {Form::area, {scree}},
                                           {Form::area, {boulders}},
                                           {Form::area, {bare_rock}},
                                           {Form::line, {stream, ditch}},
                                           {Form::line, {river}},
                                           {Form::area, {lake, sea}},
                                           {Form::area, {marsh}},
                                           {Form::area, {wood}},
                                           {Form::area, {scrub}},
                                           {Form::area, {glacier}},
                                           {Form::area, {built_up}},
                                           {Form::line, {path}},
                                           {Form::line, {faint_path}},
                                           {Form::line, {track}},
                                           {Form::line, {road}},
                                           {Form::line, {forbidden}},
                                           {Form::line, {railway, aerialway}},
                                           {Form::line, {wall, hedge}},
                                           {Form::line, {fence}},
                                           {Form::line, {power_line}},
                                           {Form::point, {building, shelter}},
                                           {Form::point, {hut}},
                                           {Form::point, {ruin}},
                                           {Form::point, {summit}},
                                           {Form::point, {spot_height}},
                                           {Form::point, {trig_point}},
                                           {Form::point, {bridge}},
                                           {Form::point, {ford}},
                                           {Form::point, {cairn}},
                                           {Form::point, {mast}},
                                           {Form::point, {sheepfold}},
                                           {Form::point, {spring, waterfall}},
                                           {Form::point, {cave, gate, wayside_mark}}};
  return all;
}

bool line_shows(const MapFrame& f, const std::vector<earth::GridPoint>& line) {
  return f.touches(line, 0) &&
         std::ranges::any_of(pieces_inside(on_page(f, line), f.at, {f.at.x + f.w, f.at.y + f.h}),
                             [](const std::vector<Mm>& piece) { return length_mm(piece) > 0.5; });
}

bool area_shows(const MapFrame& f, const mapdata::AreaFeature& area) {
  if (!f.touches(area.outer, 0)) return false;
  auto ring = area.outer;
  if (!ring.empty()) ring.push_back(ring.front());
  return line_shows(f, ring) ||
         mapdata::contains(area, f.on_ground({f.at.x + 0.5 * f.w, f.at.y + 0.5 * f.h}));
}

/// Which kinds the map shows, by their number.
std::vector<bool> kinds_shown(const MapFrame& f, const MapData& map) {
  std::vector<bool> out(mapdata::kind_count, false);
  const auto mark = [&](Kind kind, const auto& shows) {
    auto known = out[static_cast<std::size_t>(kind)];
    if (!known && shows()) out[static_cast<std::size_t>(kind)] = true;
  };
  for (const auto& l : map.lines)
    mark(l.label.kind, [&] { return !l.tunnel && line_shows(f, l.points); });
  for (const auto& a : map.areas) mark(a.label.kind, [&] { return area_shows(f, a); });
  for (const auto& p : map.points) mark(p.label.kind, [&] { return f.near(p.at); });
  return out;
}

/// Heights that fall to the east, so that water drawn on them flows that way.
terrain::Elevation falling(const MapFrame& f) {
  const double cell = f.metres(2);
  terrain::Elevation out(terrain::Frame{-20 * cell, 20 * cell, cell, 40, 40}, 0.0F);
  for (int r = 0; r < out.rows(); ++r) {
    for (int c = 0; c < out.cols(); ++c) out[r, c] = 500.0F - static_cast<float>(c);
  }
  return out;
}

/// From left to right through a place of the small map, given in its millimetres; beyond its sides,
/// so that a mark that repeats each `step` stands in the middle.
std::vector<earth::GridPoint> across(const MapFrame& f, double step = 0) {
  const double from = step > 0 ? 0.5 * (f.w - step) : -1, y = 0.5 * f.h;
  return {f.on_ground({f.at.x + from, f.at.y + y}), f.on_ground({f.at.x + f.w + 1, f.at.y + y})};
}

void draw_kind(Page& page, const MapFrame& f, const GroundSign& sign, Kind kind,
               mapdata::Origin origin = mapdata::Origin::mapped) {
  MapData map;
  Labels labels({0, 0, 0, 0});
  const Mm middle{f.at.x + 0.5 * f.w, f.at.y + 0.5 * f.h};
  const auto line = [&](Kind of, std::vector<earth::GridPoint> points) {
    mapdata::LineFeature feature;
    feature.label.kind = of;
    feature.points = std::move(points);
    feature.falls = mapdata::Side::right;
    map.lines.push_back(std::move(feature));
  };
  if (sign.form == Form::line) {
    line(kind, across(f, kind == Kind::stream || kind == Kind::ditch ? 22
                         : kind == Kind::river                       ? 18
                         : kind == Kind::power_line                  ? 9.6
                                                                     : 0));
  } else if (sign.form == Form::area) {
    mapdata::AreaFeature feature;
    feature.label.kind = kind;
    feature.label.origin = origin;
    const bool rimmed = kind == Kind::lake || kind == Kind::sea || kind == Kind::wood;
    const double inset = rimmed ? 0.6 : -4;  // a surface without a rim fills the small map
    for (const Mm p :
         {Mm{f.at.x + inset, f.at.y + f.h - inset}, Mm{f.at.x + f.w - inset, f.at.y + f.h - inset},
          Mm{f.at.x + f.w - inset, f.at.y + inset}, Mm{f.at.x + inset, f.at.y + inset}})
      feature.outer.push_back(f.on_ground(p));
    map.areas.push_back(std::move(feature));
  } else {
    if (kind == Kind::bridge || kind == Kind::ford)
      line(Kind::stream,
           {f.on_ground({middle.x, f.at.y - 1}), f.on_ground({middle.x, f.at.y + f.h + 1})});
    mapdata::PointFeature feature;
    feature.label.kind = kind;
    feature.at = f.on_ground(middle);
    map.points.push_back(feature);
  }
  draw_surfaces(page, f, map);
  draw_lines(page, f, map, falling(f));
  draw_points(page, labels, f, map);
}

/// A sloping plane with one contour, no index contour, through the middle.
void draw_contour(Page& page, const MapFrame& f, double interval_m) {
  auto plane = falling(f);
  for (int r = 0; r < plane.rows(); ++r) {
    for (int c = 0; c < plane.cols(); ++c) {
      const auto p = f.on_page(plane.frame().centre(r, c));
      const double below = p.y - f.at.y - 0.5 * f.h + 0.12 * (p.x - f.at.x - 0.5 * f.w);
      plane[r, c] = static_cast<float>(interval_m * (21 - below / 1.3));
    }
  }
  (void)draw_contours(page, f, plane, interval_m);
}

std::vector<earth::GridPoint> patch(const MapFrame& f) {
  std::vector<earth::GridPoint> out;
  const Mm c{f.at.x + 0.5 * f.w, f.at.y + 0.5 * f.h};
  for (const Mm p : circle({0, 0}, 1)) {
    // Upright sides are pulled out: a long round patch that leaves room for its edge.
    const double x = std::copysign(std::pow(std::abs(p.x), 0.6), p.x) * (0.5 * f.w - 0.5),
                 y = std::copysign(std::pow(std::abs(p.y), 0.6), p.y) * (0.5 * f.h - 0.4);
    out.push_back(f.on_ground({c.x + x, c.y + y}));
  }
  return out;
}

/// A leg through the small map; its ends lie outside unless told otherwise.
trip::PlannedLeg leg_through(const MapFrame& f, walking::LegKind kind, double end_mm) {
  trip::PlannedLeg leg;
  leg.course.kind = kind;
  const double y = f.at.y + 0.5 * f.h;
  leg.course.line = {f.on_ground({f.at.x - 12, y}), f.on_ground({f.at.x + end_mm, y})};
  leg.figures.length_m = earth::grid_distance_m(leg.course.line[0], leg.course.line[1]);
  leg.judged.fix_at_end = true;
  return leg;
}

trip::Plan plan_of(trip::PlannedLeg leg) {
  trip::Plan plan;
  plan.way.legs.push_back(std::move(leg));
  return plan;
}

/// The plan's signs that are on the map, in their order.
std::vector<Sign> plan_signs(const Page& page, const MapFrame& f, const trip::Plan& plan) {
  const auto language = plan.trip.language;
  const auto& legs = plan.way.legs;
  std::vector<Sign> out;
  const auto add = [&](bool there, Say what, std::function<void(Page&, const MapFrame&)> draw) {
    if (there) out.push_back({say(what, language), std::move(draw)});
  };
  const auto any_leg = [&](const auto& is) {
    return std::ranges::any_of(
        legs, [&](const auto& leg) { return line_shows(f, leg.course.line) && is(leg); });
  };
  const auto of_kind = [](walking::LegKind kind) {
    return [kind](const trip::PlannedLeg& leg) { return leg.course.kind == kind; };
  };
  const auto legs_drawn = [](Page& to, const MapFrame& g, trip::PlannedLeg leg) {
    Labels labels({0, 0, 0, 0});
    draw_legs(to, labels, g, plan_of(std::move(leg)));
  };
  const auto doubt_drawn = [](Page& to, const MapFrame& g, trip::PlannedLeg leg) {
    Labels labels({0, 0, 0, 0});
    const auto of_leg = plan_of(std::move(leg));
    draw_doubt_shade(to, g, of_leg);
    draw_doubt(to, labels, g, of_leg);
  };
  const auto drawn = signs_on_map(page, f, plan);
  const auto sign = [&](PlanSign what, Say words) {
    add(drawn[static_cast<std::size_t>(what)], words, [what](Page& to, const MapFrame& g) {
      draw_sign(to, {g.at.x + 0.5 * g.w, g.at.y + 0.5 * g.h}, what);
    });
  };
  add(any_leg(of_kind(walking::LegKind::along)), Say::sign_handrail,
      [=](Page& to, const MapFrame& g) {
        legs_drawn(to, g, leg_through(g, walking::LegKind::along, g.w + 12));
      });
  add(any_leg(of_kind(walking::LegKind::bearing)), Say::sign_bearing,
      [=](Page& to, const MapFrame& g) {
        legs_drawn(to, g, leg_through(g, walking::LegKind::bearing, g.w + 12));
      });
  sign(PlanSign::place, Say::sign_place);
  sign(PlanSign::attack_point, Say::sign_attack_point);
  sign(PlanSign::turn, Say::sign_turn);
  add(any_leg(of_kind(walking::LegKind::bearing)), Say::sign_error,
      [=](Page& to, const MapFrame& g) {
        auto leg = leg_through(g, walking::LegKind::bearing, g.w);
        leg.judged.cross_sigma_m = g.metres(0.7);
        doubt_drawn(to, g, std::move(leg));
      });
  add(any_leg([](const auto& leg) { return turn_without_fix(leg); }), Say::sign_error_at_end,
      [=](Page& to, const MapFrame& g) {
        auto leg = leg_through(g, walking::LegKind::bearing, 0.5 * g.w);
        leg.judged.fix_at_end = false;
        leg.judged.at_end.xx = std::pow(g.metres(1.1), 2);
        leg.judged.at_end.yy = std::pow(g.metres(0.55), 2);
        doubt_drawn(to, g, std::move(leg));
      });
  sign(PlanSign::tick_off, Say::sign_tick_off);
  add(std::ranges::any_of(legs,
                          [&](const auto& leg) {
                            return leg.stop && leg.stop->shape.size() > 1 &&
                                   line_shows(f, leg.stop->shape);
                          }),
      Say::sign_catching, [=](Page& to, const MapFrame& g) {
        auto leg = leg_through(g, walking::LegKind::along, -9);
        leg.stop = walking::Stop{};
        const double y = g.at.y + 0.5 * g.h;
        leg.stop->shape = {g.on_ground({g.at.x + 0.7, y}), g.on_ground({g.at.x + g.w - 0.7, y})};
        doubt_drawn(to, g, std::move(leg));
      });
  add(any_leg([](const auto& leg) { return leg.after.has_value(); }), Say::sign_aiming_off,
      [=](Page& to, const MapFrame& g) {
        auto leg = leg_through(g, walking::LegKind::bearing, 0.6 * g.w);
        leg.needle.emplace();
        leg.needle->aim = leg.course.line.back();
        leg.course.line.back() = g.on_ground({g.at.x + 0.6 * g.w, g.at.y + g.h + 6});
        leg.after.emplace();
        legs_drawn(to, g, std::move(leg));
      });
  sign(PlanSign::escape, Say::sign_escape);
  sign(PlanSign::safe_ground, Say::sign_safe_ground);
  return out;
}

std::vector<Sign> ground_signs_on(const MapFrame& f, const trip::Plan& plan, const MapData& map,
                                  const Shown& shown, double contour_m) {
  const auto language = plan.trip.language;
  std::vector<Sign> out;
  const auto add = [&](bool there, std::string words,
                       std::function<void(Page&, const MapFrame&)> draw) {
    if (there) out.push_back({std::move(words), std::move(draw)});
  };
  add(shown.contours,
      say(Say::sign_contour, language, {height_text(contour_m, plan.trip.lengths)}),
      [contour_m](Page& to, const MapFrame& g) { draw_contour(to, g, contour_m); });
  add(shown.kept_off.steep,
      say(Say::sign_steep, language,
          {fmt::format("{:.0f}", plan.trip.request.party.max_slope_deg)}),
      [](Page& to, const MapFrame& g) { draw_steep_sign(to, g, patch(g)); });
  add(shown.kept_off.avoided, say(Say::keep_off, language),
      [](Page& to, const MapFrame& g) { draw_hazard(to, g, {}, {patch(g)}, falling(g), 90); });
  add(shown.kept_off.closed, say(Say::sign_closed, language), [](Page& to, const MapFrame& g) {
    MapData closed;
    mapdata::AreaFeature area;
    area.label.kind = Kind::forbidden;
    area.outer = patch(g);
    closed.areas.push_back(area);
    draw_hazard(to, g, closed, {}, falling(g), 90);
  });
  add(shown.unknown, say(Say::sign_unknown, language), [](Page& to, const MapFrame& g) {
    auto none = falling(g);
    std::ranges::fill(none.cells(), std::numeric_limits<float>::quiet_NaN());
    (void)draw_unknown(to, g, none);
  });
  add(true, say(Say::sign_magnetic, language), [](Page& to, const MapFrame& g) {
    draw_meridian(to, {g.at.x + 0.5 * g.w, g.at.y + g.h}, {g.at.x + 0.5 * g.w, g.at.y - 1.2});
  });
  const auto kinds = kinds_shown(f, map);
  for (const auto& sign : ground_signs()) {
    std::string words;
    Kind first = Kind::other;
    for (const Kind k : sign.kinds) {
      if (!kinds[static_cast<std::size_t>(k)]) continue;
      if (words.empty()) first = k;
      words += (words.empty() ? "" : ", ") + landmarks::thing(k, "", language);
    }
    // Lakes that only the heights suggest have a sign, and a word, of their own.
    const bool suggested = first == Kind::lake && std::ranges::all_of(map.areas, [](const auto& a) {
                             return a.label.kind != Kind::lake ||
                                    a.label.origin == mapdata::Origin::from_relief;
                           });
    if (suggested) words = language == units::Language::german ? "wohl Wasser" : "probable water";
    if (first == Kind::forbidden) {  // of lines only: an area has its own sign
      const bool line = std::ranges::any_of(map.lines, [&](const auto& l) {
        return l.label.kind == first && line_shows(f, l.points);
      });
      words = line ? units::in(language, "motorway", "Autobahn") : "";
    }
    const auto origin = suggested ? mapdata::Origin::from_relief : mapdata::Origin::mapped;
    add(!words.empty(), words, [&sign, first, origin](Page& to, const MapFrame& g) {
      draw_kind(to, g, sign, first, origin);
    });
  }
  return out;
}

std::size_t columns_of(double width_mm) {
  return static_cast<std::size_t>(std::max(1.0, std::floor(width_mm / least_cell_mm)));
}

std::size_t rows_of(std::size_t signs, std::size_t columns) {
  return (signs + 1 + columns - 1) / columns;  // the heading takes a cell
}

}  // namespace

std::vector<std::string> legend_words(const Page& page, const MapFrame& f, const trip::Plan& plan,
                                      const MapData& map, const Shown& shown, double contour_m) {
  std::vector<std::string> out;
  for (const auto& s : plan_signs(page, f, plan)) out.push_back(s.words);
  for (const auto& s : ground_signs_on(f, plan, map, shown, contour_m)) out.push_back(s.words);
  return out;
}

void draw_legend(Page& page, Mm at, const MapFrame& f, const trip::Plan& plan, const MapData& map,
                 const Shown& shown, double contour_m) {
  const std::vector<Sign> groups[] = {plan_signs(page, f, plan),
                                      ground_signs_on(f, plan, map, shown, contour_m)};
  const Say headings[] = {Say::the_plan, Say::the_ground};
  const auto columns = columns_of(f.w);
  const double cell = f.w / static_cast<double>(columns);
  const auto rows = rows_of(groups[0].size(), columns) + rows_of(groups[1].size(), columns);
  // Many signs stand closer; all of them stand.
  const double row =
      std::min(usual_row_mm, (legend_height_mm(f.w) - 1) / static_cast<double>(rows));
  const double high = std::min(swatch_h_mm, row - 0.4);
  const double words_w = cell - swatch_w_mm - 2.0;
  std::size_t begun = 0;
  for (std::size_t g = 0; g < 2; ++g) {
    for (std::size_t i = 0; i <= groups[g].size(); ++i) {
      const double x = at.x + cell * static_cast<double>(i % columns),
                   y = at.y + row * static_cast<double>(begun + i / columns);
      if (i == 0) {
        page.fitted(say(headings[g], plan.trip.language), {x, y + 0.5 * row + 0.9}, cell - 1,
                    {Face::words_bold, std::min(2.6, 0.7 * row), ink::text}, Anchor::left, 0.5);
        continue;
      }
      const auto& sign = groups[g][i - 1];
      MapFrame small;
      small.page_w = f.page_w;
      small.page_h = f.page_h;
      small.at = {x, y + 0.5 * (row - high)};
      small.w = swatch_w_mm;
      small.h = high;
      small.scale = f.scale;
      small.south_west = {-0.5 * small.metres(small.w), -0.5 * small.metres(small.h)};
      page.clip(small.at.x, small.at.y, small.w, small.h);
      sign.draw(page, small);
      page.unclip();
      Type type{Face::words, std::min(2.15, 0.52 * row), ink::text};
      const double left = x + swatch_w_mm + 0.9;
      type.size_mm *= std::min(1.0, 0.97 * words_w / std::max(1e-9, page.longest_word(sign.words, type)));
      const bool two = row > 3.9 && page.width(sign.words, type) > words_w;
      if (two) {
        // Small is better than cut.
        for (const double least = 0.5 * type.size_mm;
             type.size_mm > least && page.lines_needed(sign.words, words_w, type) > 2;)
          type.size_mm *= 0.96;
        (void)page.paragraph(sign.words, {left, y + 0.5 * row - 0.28}, words_w, type,
                             0.97 * type.size_mm, 2);
      } else {
        (void)page.fitted(sign.words, {left, y + 0.5 * row + 0.36 * type.size_mm}, words_w, type,
                          Anchor::left, 0.4);
      }
    }
    begun += rows_of(groups[g].size(), columns);
  }
}

}  // namespace lodeway::sheet
