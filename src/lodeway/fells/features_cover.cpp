#include <algorithm>
#include <cmath>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"
#include "lodeway/fells/noise.hpp"

namespace lodeway::fells {

namespace {

using earth::GridPoint;
using mapdata::Kind;
using Field = terrain::Raster<float>;

double slope_near(const Land& land, int r, int c) {
  const auto& h = land.heights;
  if (r < 1 || c < 1 || r + 1 >= h.rows() || c + 1 >= h.cols()) return 9;
  return std::hypot(h[r, c + 1] - h[r, c - 1], h[r + 1, c] - h[r - 1, c]) / (2 * h.frame().cell_m);
}

/// Adds a blob around a place to a field: 1 in its middle, 0 at the reach, frayed by noise, held back
/// where `fits` says so.
template <class Fits>
void blob(const Land& land, Field& field, const design::Name& name, double reach_m, Fits&& fits) {
  const auto& f = field.frame();
  const auto middle = design::place(name.x_km, name.y_km);
  const auto [row, col] = f.cell_of(middle);
  const int reach = static_cast<int>(reach_m / f.cell_m);
  for (int r = std::max(1, row - reach); r < std::min(f.rows - 1, row + reach); ++r) {
    for (int c = std::max(1, col - reach); c < std::min(f.cols - 1, col + reach); ++c) {
      const double d = earth::grid_distance_m(f.centre(r, c), middle) / reach_m;
      const double frayed = 1.05 - d + 0.30 * fractal_noise(land.seed + 77, c / 22.0, r / 22.0, 3);
      const double v = std::clamp(frayed, 0.0, 1.0) * (land.wet[r, c] != 0 ? 0.0 : fits(r, c));
      field[r, c] = std::max(field[r, c], static_cast<float>(v));
    }
  }
}

/// Mean over 3 x 3 cells, so that outlines do not follow the cells.
Field softened(const Field& in) {
  Field out(in.frame(), 0.0F);
  for (int r = 1; r + 1 < in.rows(); ++r) {
    for (int c = 1; c + 1 < in.cols(); ++c) {
      float sum = 0;
      for (int i = -1; i <= 1; ++i) {
        for (int j = -1; j <= 1; ++j) sum += in[r + i, c + j];
      }
      out[r, c] = sum / 9;
    }
  }
  return out;
}

void add_areas(const Land& land, mapdata::MapData& map, std::span<const design::Name> names, Kind kind, double reach_m) {
  for (const auto& name : names) {
    Field field(land.heights.frame(), 0.0F);
    if (kind == Kind::wood) {
      blob(land, field, name, reach_m, [&](int r, int c) { return 1 - smooth_step(0.55, 0.8, slope_near(land, r, c)); });
    } else {
      blob(land, field, name, reach_m, [&](int r, int c) { return 1 - smooth_step(0.14, 0.32, slope_near(land, r, c)); });
    }
    auto rings = outlines(softened(field), 15000);
    std::ranges::stable_sort(rings, std::greater<>{}, [](const auto& ring) { return ring.size(); });
    if (rings.size() > 3) rings.resize(3);
    for (auto& ring : rings) {
      if (kind == Kind::wood) {
        mapdata::LineFeature edge{{Kind::wood_edge, ""}, ring};
        edge.points.push_back(ring.front());
        map.lines.push_back(std::move(edge));
      }
      map.areas.push_back({{kind, std::string(name.name)}, std::move(ring), {}});
    }
  }
}

void add_crags(mapdata::MapData& map) {
  for (const auto& crag : design::crags()) {
    mapdata::LineFeature line{{Kind::cliff, std::string(crag.name)}, {}};
    for (const auto& k : crag.line) line.points.push_back(design::place(k.x_km, k.y_km));
    line.points = smoothed(std::move(line.points), 2);
    line.falls = crag.falls_left ? mapdata::Side::left : mapdata::Side::right;
    // Scree: a band below the crag, from one third of its drop to three drops away.
    mapdata::AreaFeature scree{{Kind::scree, ""}, {}, {}};
    std::vector<GridPoint> far;
    for (std::size_t i = 0; i < line.points.size(); ++i) {
      const auto a = line.points[i > 0 ? i - 1 : 0], b = line.points[std::min(i + 1, line.points.size() - 1)];
      const double length = earth::grid_distance_m(a, b), sign = crag.falls_left ? -1 : 1;
      const GridPoint down{sign * (b.north_m - a.north_m) / length, -sign * (b.east_m - a.east_m) / length};
      const double t = static_cast<double>(i) / static_cast<double>(line.points.size() - 1), width = 0.6 + 1.6 * t * (1 - t) * 4;
      scree.outer.push_back(line.points[i] + (0.5 * crag.drop_m) * down);
      far.push_back(line.points[i] + (0.5 + 0.8 * width) * crag.drop_m * down);
    }
    scree.outer.insert(scree.outer.end(), far.rbegin(), far.rend());
    if (crag.falls_left) std::ranges::reverse(scree.outer);
    map.areas.push_back(std::move(scree));
    map.lines.push_back(std::move(line));
  }
}

}  // namespace

void add_cover(const Land& land, mapdata::MapData& map) {
  add_areas(land, map, design::mosses(), Kind::marsh, 420);
  add_areas(land, map, design::woods(), Kind::wood, 620);
  add_crags(map);
}

}  // namespace lodeway::fells
