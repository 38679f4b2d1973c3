#include "route/dense_grounds.hpp"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/io/osm/osm.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/tasks/derive.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;

/// Value noise, knots 100 m apart and wider, so that the steepest ground stays below 45 degrees and
/// most of it below 25.
terrain::Elevation invented_relief(const terrain::Frame& f) {
  terrain::Elevation out(f, 1200.0F);
  numeric::Random random(7);
  for (double size_m = 6400; size_m >= 100; size_m /= 2) {
    const int wide = static_cast<int>(f.cols * f.cell_m / size_m) + 2,
              high = static_cast<int>(f.rows * f.cell_m / size_m) + 2;
    terrain::Raster<double> knots({0, 0, 1, high, wide});
    for (double& v : knots.cells()) v = 0.9 * std::pow(size_m, 0.85) * (random.uniform() - 0.5);
    const auto smooth = [](double t) { return t * t * (3 - 2 * t); };
    for (int r = 0; r < f.rows; ++r) {
      const double y = r * f.cell_m / size_m;
      const int i = static_cast<int>(y);
      const double v = smooth(y - i);
      for (int c = 0; c < f.cols; ++c) {
        const double x = c * f.cell_m / size_m;
        const int j = static_cast<int>(x);
        const double u = smooth(x - j);
        out[r, c] += static_cast<float>((1 - v) * ((1 - u) * knots[i, j] + u * knots[i, j + 1]) +
                                        v * ((1 - u) * knots[i + 1, j] + u * knots[i + 1, j + 1]));
      }
    }
  }
  return out;
}

template <class Move>
void move_all(mapdata::AreaFeature& area, Move&& move) {
  for (auto& p : area.outer) p = move(p);
  for (auto& hole : area.holes) {
    for (auto& p : hole) p = move(p);
  }
}

}  // namespace

std::optional<walking::Ground> dense_country() {
  const char* given = std::getenv("LODEWAY_SHARED_DATA");
  const std::string file = std::string(given != nullptr ? given : "../shared/data") +
                           "/osm-liechtenstein/liechtenstein.osm.pbf";
  if (!std::filesystem::exists(file)) return std::nullopt;
  walking::Ground out;
  out.name = "dense country";
  auto grid = earth::MapGrid::from_text("EPSG:32632");
  if (!grid) return std::nullopt;
  out.grid = *std::move(grid);
  const terrain::Frame frame{532000, 5240000, 10, 3200, 1800};
  out.elevation = invented_relief(frame);
  const auto rules = io::built_in_rules();
  out.kinds = rules.table();
  auto read = io::read_osm(file, {out.grid, frame, &rules, {}});
  if (!read) return std::nullopt;
  out.map = std::move(read->map);
  out.sources.push_back(std::move(read->source));
  tasks::derive_edges(out);
  if (!tasks::derive_from_relief(out)) return std::nullopt;
  return out;
}

walking::Ground side_by_side(const walking::Ground& ground, int across, int down) {
  const auto& f = ground.elevation.frame();
  walking::Ground out;
  out.name = ground.name;
  out.grid = ground.grid;
  out.kinds = ground.kinds;
  out.sources = ground.sources;
  out.elevation =
      terrain::Elevation({f.west_m, f.north_m, f.cell_m, f.rows * down, f.cols * across});
  for (int r = 0; r < f.rows * down; ++r) {
    for (int c = 0; c < f.cols * across; ++c)
      out.elevation[r, c] = ground.elevation[r % f.rows, c % f.cols];
  }
  const auto& forms = ground.landforms;
  if (!forms.empty()) {
    const auto& g = forms.frame();
    out.landforms = terrain::Raster<terrain::Landform>(
        {g.west_m, g.north_m, g.cell_m, g.rows * down, g.cols * across});
    for (int r = 0; r < g.rows * down; ++r) {
      for (int c = 0; c < g.cols * across; ++c) out.landforms[r, c] = forms[r % g.rows, c % g.cols];
    }
  }
  for (int i = 0; i < down; ++i) {
    for (int j = 0; j < across; ++j) {
      const GridPoint by{j * f.cell_m * f.cols, -i * f.cell_m * f.rows};
      const auto moved = [&](GridPoint p) { return p + by; };
      for (auto p : ground.map.points) {
        p.at = moved(p.at);
        out.map.points.push_back(std::move(p));
      }
      for (auto line : ground.map.lines) {
        for (auto& p : line.points) p = moved(p);
        out.map.lines.push_back(std::move(line));
      }
      for (auto area : ground.map.areas) {
        move_all(area, moved);
        out.map.areas.push_back(std::move(area));
      }
    }
  }
  return out;
}

walking::Ground with_lines(const walking::Ground& ground, int times) {
  auto out = ground;
  const auto& f = ground.elevation.frame();
  for (int k = 1; k < times; ++k) {
    const double turn = 4.0 * k * std::numbers::pi / 180;
    const GridPoint about{f.west_m + f.cell_m * f.cols * (0.3 + 0.06 * k),
                          f.south_m() + f.cell_m * f.rows * (0.7 - 0.06 * k)};
    for (auto line : ground.map.lines) {
      if (line.label.kind == mapdata::Kind::cliff || line.label.kind == mapdata::Kind::river)
        continue;  // more of what bars would be another ground, not a denser map
      line.label.name.clear();
      std::vector<GridPoint> points;
      for (const auto p : line.points) {
        const auto d = p - about;
        const GridPoint q =
            about + GridPoint{std::cos(turn) * d.east_m - std::sin(turn) * d.north_m,
                              std::sin(turn) * d.east_m + std::cos(turn) * d.north_m};
        if (f.contains(q)) points.push_back(q);
      }
      if (points.size() < 2) continue;
      line.points = std::move(points);
      out.map.lines.push_back(std::move(line));
    }
  }
  return out;
}

}  // namespace lodeway::route
