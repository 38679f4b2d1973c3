#pragma once
/// A made ground for tests: gently rolling, 4 km square of 20 m cells about the origin, nothing on
/// its map.
#include <cmath>

#include "lodeway/walking/ground.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::reckoning::made {

using earth::GridPoint;
using mapdata::Kind;

inline mapdata::KindTraits traits(bool leads, bool catches, double seen, double known) {
  mapdata::KindTraits t;
  t.leads = leads;
  t.catches = catches;
  t.ticks = true;
  t.seen_from_m = {seen, seen / 2, seen / 4, seen / 2};
  t.recognised = {known, known * 0.95, known * 0.8, known * 0.6};
  return t;
}

inline walking::Ground ground() {
  walking::Ground g;
  g.name = "made";
  g.elevation = terrain::Elevation(terrain::Frame{-2000, 2000, 20, 200, 200});
  for (int r = 0; r < 200; ++r)
    for (int c = 0; c < 200; ++c)
      g.elevation[r, c] =
          static_cast<float>(300 + 15 * std::sin(0.07 * r) + 12 * std::cos(0.05 * c));
  g.kinds[Kind::path] = traits(true, true, 15, 0.97);
  g.kinds[Kind::wall] = traits(true, true, 60, 1);
  g.kinds[Kind::stream] = traits(true, true, 30, 0.95);
  g.kinds[Kind::cairn] = traits(false, false, 40, 1);
  g.kinds[Kind::hut] = traits(false, false, 120, 0.98);
  g.kinds[Kind::gate] = traits(false, false, 25, 1);
  g.kinds[Kind::junction] = traits(false, false, 20, 0.95);
  return g;
}

inline void add_point(walking::Ground& g, Kind kind, GridPoint at) {
  g.map.points.push_back({{kind, ""}, at, 0});
}
inline void add_line(walking::Ground& g, Kind kind, std::vector<GridPoint> points) {
  g.map.lines.push_back({{kind, ""}, std::move(points), mapdata::Side::none, false, false});
}

inline walking::Leg bearing_leg(GridPoint from, GridPoint to) {
  walking::Leg leg;
  leg.course.from = "the start";
  leg.course.to = "the end";
  leg.course.line = {from, to};
  leg.figures.length_m = earth::grid_distance_m(from, to);
  leg.figures.bearing = earth::grid_bearing(from, to);
  leg.figures.minutes = leg.figures.length_m * 0.015;
  leg.figures.minutes_slow = leg.figures.minutes * 1.2;
  leg.figures.double_paces = leg.figures.length_m / 1.6;
  return leg;
}

inline walking::Leg along_leg(std::vector<GridPoint> line, Kind kind) {
  walking::Leg leg = bearing_leg(line.front(), line.back());
  leg.course.kind = walking::LegKind::along;
  leg.course.followed.kind = kind;
  leg.course.followed.name = mapdata::kind_words(kind);
  leg.course.line = std::move(line);
  leg.figures.length_m = mapdata::length_m(leg.course.line);
  leg.figures.minutes = leg.figures.length_m * 0.015;
  return leg;
}

}  // namespace lodeway::reckoning::made
