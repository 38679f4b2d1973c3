#include "lodeway/walking/piece.hpp"

#include <cmath>
#include <span>

namespace lodeway::walking {

namespace {

using earth::GridPoint;

Box box_of(std::span<const GridPoint> points) {
  auto out = Box::about(points.front());
  for (const auto p : points) out.take(p);
  return out;
}

template <class T>
terrain::Raster<T> cut(const terrain::Raster<T>& from, const Box& box) {
  if (from.empty()) return {};
  const auto& f = from.frame();
  const auto to = cells_of(f, box);
  terrain::Raster<T> out(to);
  const int left = static_cast<int>(std::lround((to.west_m - f.west_m) / f.cell_m)),
            top = static_cast<int>(std::lround((f.north_m - to.north_m) / f.cell_m));
  for (int r = 0; r < to.rows; ++r) {
    const auto row = from.row(top + r).subspan(static_cast<std::size_t>(left),
                                               static_cast<std::size_t>(to.cols));
    std::ranges::copy(row, out.row(r).begin());
  }
  return out;
}

}  // namespace

terrain::Frame cells_of(const terrain::Frame& f, const Box& box) {
  const auto held = [](double v, int most) {
    return static_cast<int>(std::clamp(v, 0.0, static_cast<double>(most)));
  };
  const int left = held(std::floor((box.west_m - f.west_m) / f.cell_m), f.cols),
            right = held(std::ceil((box.east_m - f.west_m) / f.cell_m), f.cols),
            top = held(std::floor((f.north_m - box.north_m) / f.cell_m), f.rows),
            bottom = held(std::ceil((f.north_m - box.south_m) / f.cell_m), f.rows);
  if (left >= right || top >= bottom) return {f.west_m, f.north_m, f.cell_m, 0, 0};
  return {f.west_m + left * f.cell_m, f.north_m - top * f.cell_m, f.cell_m, bottom - top,
          right - left};
}

double to_cut_m(const terrain::Frame& piece, const terrain::Frame& whole, GridPoint p) {
  double out = 1e300;
  const auto own = Box::of(piece), all = Box::of(whole);
  const double inside = 0.5 * whole.cell_m;  // of the whole ground's own side
  if (own.west_m > all.west_m + inside) out = std::min(out, p.east_m - own.west_m);
  if (own.east_m < all.east_m - inside) out = std::min(out, own.east_m - p.east_m);
  if (own.south_m > all.south_m + inside) out = std::min(out, p.north_m - own.south_m);
  if (own.north_m < all.north_m - inside) out = std::min(out, own.north_m - p.north_m);
  return std::max(out, 0.0);
}

Ground piece_of(const Ground& ground, const Box& box) {
  Ground out;
  out.name = ground.name;
  out.grid = ground.grid;
  out.kinds = ground.kinds;
  out.sources = ground.sources;
  out.elevation = cut(ground.elevation, box);
  out.landforms = cut(ground.landforms, box);
  for (const auto& p : ground.map.points) {
    if (box.meets(Box::about(p.at))) out.map.points.push_back(p);
  }
  for (const auto& line : ground.map.lines) {
    if (!line.points.empty() && box.meets(box_of(line.points))) out.map.lines.push_back(line);
  }
  for (const auto& area : ground.map.areas) {
    if (!area.outer.empty() && box.meets(box_of(area.outer))) out.map.areas.push_back(area);
  }
  return out;
}

}  // namespace lodeway::walking
