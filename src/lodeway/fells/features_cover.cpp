#include <algorithm>
#include <cmath>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"
#include "lodeway/fells/noise.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::fells {

namespace {

using earth::GridPoint;
using mapdata::Kind;
using Field = terrain::Raster<float>;

double slope_near(const Land& land, int r, int c) {
  const auto& h = land.heights;
  if (r < 1 || c < 1 || r + 1 >= h.rows() || c + 1 >= h.cols()) return 9;
  const double x = h[r, c + 1] - h[r, c - 1], y = h[r + 1, c] - h[r - 1, c];
  return std::sqrt(x * x + y * y) / (2 * h.frame().cell_m);
}

/// Adds a blob around a place to a field: 1 in its middle, 0 at the reach, frayed by noise, held
/// back where `fits` says so.
template <class Fits>
void blob(const Land& land, Field& field, const design::Name& name, double reach_m, Fits&& fits) {
  const auto& f = field.frame();
  const auto middle = design::place(name.x_km, name.y_km);
  const auto [row, col] = f.cell_of(middle);
  const int reach = static_cast<int>(reach_m / f.cell_m);
  for (int r = std::max(1, row - reach); r < std::min(f.rows - 1, row + reach); ++r) {
    for (int c = std::max(1, col - reach); c < std::min(f.cols - 1, col + reach); ++c) {
      const double d = distance_m(f.centre(r, c), middle) / reach_m;
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

void add_areas(const Land& land, mapdata::MapData& map, std::span<const design::Name> names,
               Kind kind, double reach_m) {
  for (const auto& name : names) {
    Field field(land.heights.frame(), 0.0F);
    if (kind == Kind::wood) {
      blob(land, field, name, reach_m,
           [&](int r, int c) { return 1 - smooth_step(0.55, 0.8, slope_near(land, r, c)); });
    } else {
      blob(land, field, name, reach_m,
           [&](int r, int c) { return 1 - smooth_step(0.14, 0.32, slope_near(land, r, c)); });
    }
    auto rings = outlines(softened(field), 15000);
    std::ranges::stable_sort(rings, std::greater<>{}, [](const auto& ring) { return ring.size(); });
    if (rings.size() > 3) rings.resize(3);
    std::string given(name.name);  // the largest piece has it
    for (auto& ring : rings) {
      if (kind == Kind::wood) {
        mapdata::LineFeature edge{{Kind::wood_edge, ""}, ring};
        edge.points.push_back(ring.front());
        map.lines.push_back(std::move(edge));
      }
      map.areas.push_back({{kind, given}, std::move(ring), {}});
      given.clear();
    }
  }
}

/// Marsh where the raster had a pit that water filled: level, wet, without a name.
void add_pools(const Land& land, mapdata::MapData& map) {
  Field field(land.heights.frame(), 0.0F);
  for (std::size_t k = 0; k < land.pool_m.size(); ++k) {
    if (land.wet.cells()[k] == 0 && land.pool_m[k] > 0.6) field.cells()[k] = 1.0F;
  }
  for (auto& ring : outlines(softened(field), 9000)) {
    const auto middle = ring[ring.size() / 2];
    const bool named = std::ranges::any_of(map.areas, [&](const auto& a) {
      return a.label.kind == Kind::marsh && mapdata::contains(a, middle);
    });
    if (!named) map.areas.push_back({{Kind::marsh, ""}, std::move(ring), {}});
  }
}

GridPoint normal_of(const std::vector<GridPoint>& line, std::size_t i, bool falls_left) {
  const auto a = line[i > 0 ? i - 1 : 0], b = line[std::min(i + 1, line.size() - 1)];
  const double length = distance_m(a, b), sign = falls_left ? -1 : 1;
  return {sign * (b.north_m - a.north_m) / length, -sign * (b.east_m - a.east_m) / length};
}

/// A crag as the relief has it: where, across the drawn line, the ground falls most within 20 m; in
/// pieces, where that is at least 20 m (45 degrees).
std::vector<std::vector<GridPoint>> crag_edges(const terrain::Elevation& z,
                                               const design::Crag& crag) {
  std::vector<GridPoint> drawn;
  for (std::size_t i = 0; i + 1 < crag.line.size(); ++i) {
    const auto a = design::place(crag.line[i].x_km, crag.line[i].y_km),
               b = design::place(crag.line[i + 1].x_km, crag.line[i + 1].y_km);
    const int steps = static_cast<int>(distance_m(a, b) / 12);
    for (int k = 0; k < steps; ++k) drawn.push_back(a + (static_cast<double>(k) / steps) * (b - a));
  }
  std::vector<double> offset(drawn.size()), fall(drawn.size());
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    const auto down = normal_of(drawn, i, crag.falls_left);
    for (double o = -70; o <= 70; o += 5) {
      const double drop = terrain::height_at(z, drawn[i] + (o - 10) * down) -
                          terrain::height_at(z, drawn[i] + (o + 10) * down);
      if (drop > fall[i]) {
        fall[i] = drop;
        offset[i] = o;
      }
    }
  }
  std::vector<std::vector<GridPoint>> pieces;
  std::vector<GridPoint> piece;
  for (std::size_t i = 2; i + 2 < drawn.size(); ++i) {
    const double smooth =
        (offset[i - 2] + offset[i - 1] + offset[i] + offset[i + 1] + offset[i + 2]) / 5;
    if (fall[i] >= 20)
      piece.push_back(drawn[i] + (smooth - 6) * normal_of(drawn, i, crag.falls_left));
    if (fall[i] < 20 || i + 3 == drawn.size()) {
      if (piece.size() >= 8) pieces.push_back(mapdata::smoothed(piece, 1));
      piece.clear();
    }
  }
  std::ranges::stable_sort(pieces, std::greater<>{}, [](const auto& p) { return p.size(); });
  return pieces;
}

/// A band below a crag; narrow at its ends.
mapdata::AreaFeature scree_below(const std::vector<GridPoint>& edge, const design::Crag& crag) {
  mapdata::AreaFeature scree{{Kind::scree, ""}, {}, {}};
  std::vector<GridPoint> far;
  for (std::size_t i = 0; i < edge.size(); i += 3) {
    const auto down = normal_of(edge, i, crag.falls_left);
    const double t = static_cast<double>(i) / static_cast<double>(edge.size() - 1),
                 width = 0.3 + 5 * t * (1 - t);
    scree.outer.push_back(edge[i] + 24.0 * down);
    far.push_back(edge[i] + (24 + crag.drop_m * width) * down);
  }
  scree.outer.insert(scree.outer.end(), far.rbegin(), far.rend());
  if (!crag.falls_left) std::ranges::reverse(scree.outer);
  return scree;
}

void add_crags(const Land& land, mapdata::MapData& map) {
  terrain::Elevation z(land.heights.frame());
  std::ranges::transform(land.heights.cells(), z.cells().begin(),
                         [](double v) { return static_cast<float>(v); });
  for (const auto& crag : design::crags()) {
    std::string_view name = crag.name;  // the longest piece has it
    for (auto& edge : crag_edges(z, crag)) {
      map.areas.push_back(scree_below(edge, crag));
      if (!name.empty()) {
        const auto foot = edge[edge.size() / 2] +
                          (2.6 * crag.drop_m) * normal_of(edge, edge.size() / 2, crag.falls_left);
        Field field(land.heights.frame(), 0.0F);
        blob(land, field,
             {"", (foot.east_m - design::west_m) / 1000, (foot.north_m - design::south_m) / 1000},
             85, [](int, int) { return 1.0; });
        for (auto& ring : outlines(softened(field), 4000))
          map.areas.push_back({{Kind::boulders, ""}, std::move(ring), {}});
      }
      mapdata::LineFeature line{{Kind::cliff, std::string(name)}, std::move(edge)};
      line.falls = crag.falls_left ? mapdata::Side::left : mapdata::Side::right;
      map.lines.push_back(std::move(line));
      name = "";
    }
  }
}

}  // namespace

void add_cover(const Land& land, mapdata::MapData& map) {
  add_areas(land, map, design::mosses(), Kind::marsh, 420);
  add_areas(land, map, design::woods(), Kind::wood, 620);
  add_pools(land, map);
  add_crags(land, map);
}

}  // namespace lodeway::fells
