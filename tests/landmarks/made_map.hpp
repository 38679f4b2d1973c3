#pragma once
/// A made map for tests: nothing on it, and kinds that lead, are seen from 40 m and known 9 of 10.
#include "lodeway/landmarks/fixes.hpp"

namespace lodeway::landmarks::made {

using mapdata::Kind;

struct Made {
  terrain::Elevation heights;
  mapdata::MapData map;
  mapdata::KindTable kinds;

  Made() {
    for (int k = 0; k < mapdata::kind_count; ++k) {
      auto& t = kinds[static_cast<Kind>(k)];
      t.leads = k <= static_cast<int>(Kind::valley_line) && static_cast<Kind>(k) != Kind::cliff;
      t.ticks = true;
      t.seen_from_m = {40, 20, 10, 5};
      t.recognised = {0.9, 0.8, 0.6, 0.3};
    }
  }
  void line(Kind kind, std::vector<GridPoint> points, std::string name = "") {
    map.lines.push_back({{kind, std::move(name)}, std::move(points)});
  }
  void point(Kind kind, GridPoint at, std::string name = "") {
    map.points.push_back({{kind, std::move(name)}, at, 0});
  }
  [[nodiscard]] Fixes fixes() const { return {heights, map, kinds}; }
};

}  // namespace lodeway::landmarks::made
