#include <algorithm>
#include <cmath>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"
#include "lodeway/fells/noise.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/terrain/contours.hpp"

namespace lodeway::fells {

namespace {

using earth::GridPoint;
using mapdata::Kind;

void add_point(const Land& land, mapdata::MapData& map, Kind kind, std::string_view name,
               GridPoint p, bool height = false) {
  map.points.push_back(
      {{kind, std::string(name)}, p, height ? std::round(height_near(land, p)) : std::nan("")});
}

void add_power_line(const Land& land, mapdata::MapData& map) {
  const std::vector<GridPoint> route{design::place(0.2, 4.5), design::place(3.0, 4.05),
                                     design::place(6.0, 4.75), design::place(8.9, 4.45),
                                     design::place(11.9, 5.4)};
  mapdata::LineFeature line{{Kind::power_line, ""}, {}};
  for (std::size_t i = 1; i < route.size(); ++i) {
    const int spans = std::max(1, static_cast<int>(distance_m(route[i - 1], route[i]) / 240));
    for (int k = i > 1 ? 1 : 0; k <= spans; ++k) {
      line.points.push_back(route[i - 1] +
                            (static_cast<double>(k) / spans) * (route[i] - route[i - 1]));
      add_point(land, map, Kind::mast, "", line.points.back());
    }
  }
  map.lines.push_back(std::move(line));
}

void add_places(const Land& land, mapdata::MapData& map) {
  for (const auto& s : land.summits) {
    add_point(land, map, Kind::summit, s.name, s.at, true);
    if (s.name == "Great Skarrow" || s.name == "Dunnow Moor")
      add_point(land, map, Kind::trig_point, "", s.at);
    if (s.name == "Harrik Pike" || s.name == "Vannet Fell" || s.name == "Hethra Pike")
      add_point(land, map, Kind::cairn, "", s.at);
  }
  for (const auto& s : land.saddles) add_point(land, map, Kind::saddle, s.name, s.at, true);
  for (const auto& s : design::settlements())
    add_point(land, map, Kind::settlement, s.name, design::place(s.x_km, s.y_km));
  for (const auto& f : design::farms()) {
    const auto p = design::place(f.x_km, f.y_km) + GridPoint{18, 22};
    add_point(land, map, Kind::building, f.name, p);
    add_point(land, map, Kind::building, "", p + GridPoint{24, -10});
    if (lattice_unit(land.seed, std::lround(p.east_m), 5) > 0.4)
      add_point(land, map, Kind::building, "", p + GridPoint{-16, 27});
  }
  for (const auto& s : design::settlements()) {
    for (int k = 0; k < 9; ++k) {
      const auto salt = std::lround(1000 * s.x_km);
      const auto away = [&](int draw) {
        return std::round(260 * (lattice_unit(land.seed, draw, salt) - 0.5));
      };
      add_point(land, map, Kind::building, "",
                design::place(s.x_km, s.y_km) + GridPoint{away(k), away(k + 50)});
    }
  }
  add_point(land, map, Kind::hut, "Ravock Hut", design::place(10.55, 8.75));
  add_point(land, map, Kind::ruin, "Dunnow Shieling", design::place(8.45, 2.05));
  for (const auto& [x, y] : {std::pair{4.3, 6.75}, std::pair{5.9, 6.05}, std::pair{8.1, 6.0},
                             std::pair{4.35, 9.25}, std::pair{2.65, 8.15}, std::pair{10.9, 7.4}}) {
    add_point(land, map, Kind::sheepfold, "", design::place(x, y));
  }
  for (const auto& [x, y] :
       {std::pair{6.6, 7.4}, std::pair{8.62, 8.25}, std::pair{2.5, 6.95}, std::pair{9.0, 2.5}}) {
    add_point(land, map, Kind::cairn, "", design::place(x, y));
  }
  for (int k = 0; k < 400; ++k) {  // spot heights: a place that is the highest for 150 m around
    const auto p = design::place(0.4 + 11.2 * lattice_unit(land.seed + 9, k, 1),
                                 0.4 + 11.2 * lattice_unit(land.seed + 9, k, 2));
    const auto high = highest_near(land, p, 150);
    if (highest_near(land, high, 150) == high &&
        std::ranges::none_of(map.points, [&](const auto& q) {
          return q.height_m > 0 && distance_m(q.at, high) < 250;
        })) {
      add_point(land, map, Kind::spot_height, "", high, true);
    }
  }
  for (const auto& r : design::regions())
    add_point(land, map, Kind::other, r.name, design::place(r.x_km, r.y_km));
}

}  // namespace

void add_walls(const Land& land, mapdata::MapData& map) {
  terrain::Elevation z(land.heights.frame());
  std::ranges::transform(land.heights.cells(), z.cells().begin(),
                         [](double v) { return static_cast<float>(v); });
  int made = 0;
  for (const auto& c : terrain::contours(z, 270)) {
    if (c.height_m != 270) continue;
    std::vector<GridPoint> piece;
    const auto finish = [&] {
      if (piece.size() > 90) {
        std::vector<GridPoint> thin;
        for (std::size_t i = 0; i < piece.size(); i += 4) thin.push_back(piece[i]);
        map.lines.push_back({{made++ % 3 == 2 ? Kind::fence : Kind::wall, ""},
                             mapdata::smoothed(std::move(thin), 1)});
      }
      piece.clear();
    };
    for (const auto& p : c.points) {
      const double x = (p.east_m - design::west_m) / 1000, y = (p.north_m - design::south_m) / 1000;
      if (y > 3.6 && y < 5.6 && x > 0.6 && x < 9.6 && piece.size() < 260) {
        piece.push_back(p);
      } else {
        finish();
      }
    }
    finish();
  }
  const auto line = [&](Kind kind, std::string_view name, std::vector<GridPoint> points) {
    map.lines.push_back({{kind, std::string(name)}, mapdata::smoothed(std::move(points), 1)});
  };
  const auto at = design::place;
  line(Kind::wall, "Long Wall",
       {at(4.95, 5.75), at(5.3, 6.0), at(5.75, 6.1), at(6.2, 6.25), at(6.55, 6.55), at(7.05, 6.86),
        at(7.6, 7.1)});
  line(Kind::wall, "", {at(2.6, 5.6), at(3.0, 5.5), at(3.45, 5.42), at(3.95, 5.4), at(4.3, 5.5)});
  line(Kind::fence, "March Fence",
       {at(8.0, 7.15), at(8.5, 7.2), at(8.65, 7.9), at(8.6, 8.6), at(8.75, 9.3)});
  line(Kind::fence, "", {at(9.6, 9.4), at(10.2, 9.7), at(11.0, 9.6)});
}

void add_works(const Land& land, mapdata::MapData& map) {
  add_power_line(land, map);
  add_places(land, map);
}

}  // namespace lodeway::fells
