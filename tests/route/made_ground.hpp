#pragma once
/// A made ground for route tests: flat, 2 km x 2 km, 10 m cells, UTM 29N; places as metres from its
/// south-west corner.
#include "lodeway/walking/ground.hpp"

namespace lodeway::route::made {

using mapdata::Kind;

inline earth::GridPoint at(double e, double n) { return {480000 + e, 6050000 + n}; }

inline walking::Ground ground() {
  walking::Ground g;
  g.grid = *earth::MapGrid::from_text("EPSG:32629");
  g.elevation = terrain::Elevation(terrain::Frame{480000, 6052000, 10, 200, 200}, 200.0F);
  for (int k = 0; k < mapdata::kind_count; ++k) {
    auto& traits = g.kinds[static_cast<Kind>(k)];
    traits.speed_factor = 1;
    traits.seen_from_m.fill(100);
    traits.recognised.fill(0.9);
  }
  for (const auto kind : {Kind::path, Kind::track, Kind::wall, Kind::stream, Kind::river}) {
    g.kinds[kind].leads = g.kinds[kind].ticks = g.kinds[kind].catches = true;
  }
  for (const auto kind : {Kind::bridge, Kind::summit, Kind::hut, Kind::sheepfold}) {
    g.kinds[kind].ticks = true;
  }
  g.kinds[Kind::lake].forbids = true;
  return g;
}

inline void line(walking::Ground& g, Kind kind, std::vector<earth::GridPoint> points,
                 std::string name = {}) {
  g.map.lines.push_back({{kind, std::move(name)}, std::move(points)});
}

inline void box(walking::Ground& g, Kind kind, earth::GridPoint sw, earth::GridPoint ne,
                std::string name = {}) {
  g.map.areas.push_back(
      {{kind, std::move(name)}, {sw, {ne.east_m, sw.north_m}, ne, {sw.east_m, ne.north_m}}, {}});
}

}  // namespace lodeway::route::made
