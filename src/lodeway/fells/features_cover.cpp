#include <algorithm>
#include <cmath>
#include <iterator>

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

/// A blob around a place: 1 in its middle, 0 at the reach, frayed by noise, held back where `fits`
/// says so. The field is a window of the land's.
template <class Fits>
Field blob(const Land& land, const design::Name& name, double reach_m, Fits&& fits) {
  const auto& f = land.heights.frame();
  const auto middle = design::place(name.x_km, name.y_km);
  const auto [row, col] = f.cell_of(middle);
  const int reach = static_cast<int>(reach_m / f.cell_m);
  const int top = std::max(1, row - reach), past = std::min(f.rows - 1, row + reach);
  const int left = std::max(1, col - reach), right = std::min(f.cols - 1, col + reach);
  Field field(window(f, top, left, past - 1, right - 1), 0.0F);
  const auto [first_row, first_col] = field.frame().cell_of(f.centre(top, left));
  for (int r = top; r < past; ++r) {
    for (int c = left; c < right; ++c) {
      const double d = distance_m(f.centre(r, c), middle) / reach_m;
      const double frayed = 1.05 - d + 0.30 * fractal_noise(land.seed + 77, c / 22.0, r / 22.0, 3);
      const double v = std::clamp(frayed, 0.0, 1.0) * (land.wet[r, c] != 0 ? 0.0 : fits(r, c));
      field[r - top + first_row, c - left + first_col] = static_cast<float>(v);
    }
  }
  return field;
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

/// What each of `count` things adds to the map, made side by side and added in their order.
template <class Draw>
void add_each(mapdata::MapData& map, std::size_t count, numeric::Parallel& parallel,
              const Draw& draw) {
  std::vector<mapdata::MapData> parts(count);
  parallel.for_each_block(count, [&](std::size_t i) { draw(i, parts[i]); });
  for (auto& part : parts) {
    std::ranges::move(part.lines, std::back_inserter(map.lines));
    std::ranges::move(part.areas, std::back_inserter(map.areas));
  }
}

void add_areas(const Land& land, mapdata::MapData& map, std::span<const design::Name> names,
               Kind kind, double reach_m, numeric::Parallel& parallel) {
  add_each(map, names.size(), parallel, [&](std::size_t i, mapdata::MapData& part) {
    const auto& name = names[i];
    const double gentle = kind == Kind::wood ? 0.55 : 0.14, steep = kind == Kind::wood ? 0.8 : 0.32;
    const Field field = blob(land, name, reach_m, [&](int r, int c) {
      return 1 - smooth_step(gentle, steep, slope_near(land, r, c));
    });
    auto rings = outlines(softened(field), 15000);
    std::ranges::stable_sort(rings, std::greater<>{}, [](const auto& ring) { return ring.size(); });
    if (rings.size() > 3) rings.resize(3);
    std::string given(name.name);  // the largest piece has it
    for (auto& ring : rings) {
      if (kind == Kind::wood) {
        mapdata::LineFeature edge{{Kind::wood_edge, ""}, ring};
        edge.points.push_back(ring.front());
        part.lines.push_back(std::move(edge));
      }
      part.areas.push_back({{kind, given}, std::move(ring), {}});
      given.clear();
    }
  });
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

void add_crags(const Land& land, mapdata::MapData& map, numeric::Parallel& parallel) {
  terrain::Elevation z(land.heights.frame());
  std::ranges::transform(land.heights.cells(), z.cells().begin(),
                         [](double v) { return static_cast<float>(v); });
  add_each(map, design::crags().size(), parallel, [&](std::size_t i, mapdata::MapData& part) {
    const auto& crag = design::crags()[i];
    std::string_view name = crag.name;  // the longest piece has it
    for (auto& edge : crag_edges(z, crag)) {
      part.areas.push_back(scree_below(edge, crag));
      if (!name.empty()) {
        const auto foot = edge[edge.size() / 2] +
                          (2.6 * crag.drop_m) * normal_of(edge, edge.size() / 2, crag.falls_left);
        const Field field = blob(
            land,
            {"", (foot.east_m - design::west_m) / 1000, (foot.north_m - design::south_m) / 1000},
            85, [](int, int) { return 1.0; });
        for (auto& ring : outlines(softened(field), 4000))
          part.areas.push_back({{Kind::boulders, ""}, std::move(ring), {}});
      }
      mapdata::LineFeature line{{Kind::cliff, std::string(name)}, std::move(edge)};
      line.falls = crag.falls_left ? mapdata::Side::left : mapdata::Side::right;
      part.lines.push_back(std::move(line));
      name = "";
    }
  });
}

}  // namespace

void add_cover(const Land& land, mapdata::MapData& map, numeric::Parallel& parallel) {
  add_areas(land, map, design::mosses(), Kind::marsh, 420, parallel);
  add_areas(land, map, design::woods(), Kind::wood, 620, parallel);
  add_pools(land, map);
  add_crags(land, map, parallel);
}

}  // namespace lodeway::fells
