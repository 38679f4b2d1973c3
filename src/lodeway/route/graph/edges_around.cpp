#include "lodeway/route/graph/edges_around.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::route {

using earth::GridPoint;

EdgesAround::EdgesAround(std::span<const mapdata::NetworkEdge> all, std::vector<std::uint32_t> of,
                         double cell_m)
    : cell_m_(cell_m) {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  for (const auto id : of) {
    const auto& points = all[id].points;
    Edge edge{id, static_cast<std::uint32_t>(points_.size()), 0, 1e300, 1e300, -1e300, -1e300, 0, 0};
    double along = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const auto p = points[i];
      if (i > 0) along += earth::grid_distance_m(points[i - 1], p);
      points_.push_back(p);
      along_m_.push_back(along);
      edge.west_m = std::min(edge.west_m, p.east_m);
      edge.east_m = std::max(edge.east_m, p.east_m);
      edge.south_m = std::min(edge.south_m, p.north_m);
      edge.north_m = std::max(edge.north_m, p.north_m);
    }
    edge.last = static_cast<std::uint32_t>(points_.size()) - 1;
    west = std::min(west, edge.west_m);
    east = std::max(east, edge.east_m);
    south = std::min(south, edge.south_m);
    north = std::max(north, edge.north_m);
    edges_.push_back(edge);
  }
  if (edges_.empty()) return;
  west_m_ = west;
  south_m_ = south;
  cols_ = static_cast<int>((east - west) / cell_m_) + 1;
  rows_ = static_cast<int>((north - south) / cell_m_) + 1;
  start_.assign(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(cols_) + 1, 0);
  const auto for_cells = [&](const Edge& e, auto&& use) {
    for (int r = e.row; r <= row_of(e.north_m); ++r) {
      for (int c = e.col; c <= col_of(e.east_m); ++c) use(static_cast<std::size_t>(r * cols_ + c));
    }
  };
  for (auto& e : edges_) {
    e.row = row_of(e.south_m);
    e.col = col_of(e.west_m);
    for_cells(e, [&](std::size_t k) { ++start_[k + 1]; });
  }
  for (std::size_t k = 1; k < start_.size(); ++k) start_[k] += start_[k - 1];
  items_.resize(start_.back());
  auto next = start_;
  for (std::uint32_t i = 0; i < edges_.size(); ++i)
    for_cells(edges_[i], [&](std::size_t k) { items_[next[k]++] = i; });
}

int EdgesAround::col_of(double east_m) const {
  return static_cast<int>(
      std::clamp(std::floor((east_m - west_m_) / cell_m_), 0.0, cols_ - 1.0));
}
int EdgesAround::row_of(double north_m) const {
  return static_cast<int>(
      std::clamp(std::floor((north_m - south_m_) / cell_m_), 0.0, rows_ - 1.0));
}

std::vector<mapdata::OnNetwork> EdgesAround::near(GridPoint p, double radius_m) const {
  std::vector<mapdata::OnNetwork> out;
  if (edges_.empty()) return out;
  const int r0 = row_of(p.north_m - radius_m), r1 = row_of(p.north_m + radius_m),
            c0 = col_of(p.east_m - radius_m), c1 = col_of(p.east_m + radius_m);
  const auto look_at = [&](const Edge& e) {
    const double dx = std::max({e.west_m - p.east_m, 0.0, p.east_m - e.east_m}),
                 dy = std::max({e.south_m - p.north_m, 0.0, p.north_m - e.north_m});
    if (dx * dx + dy * dy > radius_m * radius_m) return;
    double least = 1e300, away = 1e300;  // squared, and not
    std::uint32_t nearest = e.first;
    for (auto i = e.first; i < e.last; ++i) {
      const auto a = points_[i], b = points_[i + 1];
      const auto off = a + mapdata::nearest_fraction(a, b, p) * (b - a) - p;
      const double squared = mapdata::dot(off, off);
      if (squared >= least) continue;
      if (const double d = std::sqrt(squared); d < away) {
        least = squared;
        away = d;
        nearest = i;
      }
    }
    if (away > radius_m) return;
    const auto a = points_[nearest], b = points_[nearest + 1];
    const auto at = a + mapdata::nearest_fraction(a, b, p) * (b - a);
    out.push_back({e.id, along_m_[nearest] + earth::grid_distance_m(a, at), at, away});
  };
  for (int r = r0; r <= r1; ++r) {
    for (int c = c0; c <= c1; ++c) {
      const auto k = static_cast<std::size_t>(r * cols_ + c);
      for (auto i = start_[k]; i < start_[k + 1]; ++i) {
        const auto& e = edges_[items_[i]];  // once, in the first of the cells looked at
        if (r == std::max(e.row, r0) && c == std::max(e.col, c0)) look_at(e);
      }
    }
  }
  return out;
}

}  // namespace lodeway::route
