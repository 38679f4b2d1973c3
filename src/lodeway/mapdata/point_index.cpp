#include "lodeway/mapdata/point_index.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {

using earth::GridPoint;

PointIndex::PointIndex(std::vector<GridPoint> points) : points_(std::move(points)) {
  if (points_.empty()) return;
  const auto [low, high] = std::ranges::minmax(points_, {}, &GridPoint::north_m);
  south_ = low.north_m;
  const auto strips =
      static_cast<std::size_t>(std::max(1.0, std::sqrt(static_cast<double>(points_.size()))));
  strip_m_ = std::max((high.north_m - low.north_m) / static_cast<double>(strips), 1e-3);
  const auto strip = [&](std::uint32_t i) {
    return std::min(strips - 1, static_cast<std::size_t>((points_[i].north_m - south_) / strip_m_));
  };
  order_.resize(points_.size());
  for (std::uint32_t i = 0; i < order_.size(); ++i) order_[i] = i;
  std::ranges::stable_sort(order_, {},
                           [&](std::uint32_t i) { return std::pair(strip(i), points_[i].east_m); });
  start_.assign(strips + 1, 0);
  for (const auto i : order_) ++start_[strip(i) + 1];
  for (std::size_t s = 1; s < start_.size(); ++s) start_[s] += start_[s - 1];
}

template <class Use>
void PointIndex::visit_box(GridPoint low, GridPoint high, Use&& use) const {
  if (points_.empty()) return;
  const double strips = static_cast<double>(start_.size() - 1);
  const auto strip = [&](double north) {
    return static_cast<std::size_t>(
        std::clamp(std::floor((north - south_) / strip_m_), 0.0, strips - 1));
  };
  for (auto s = strip(low.north_m); s <= strip(high.north_m); ++s) {
    const auto first = order_.begin() + start_[s], last = order_.begin() + start_[s + 1];
    auto i = std::lower_bound(first, last, low.east_m, [&](std::uint32_t k, double east) {
      return points_[k].east_m < east;
    });
    for (; i != last && points_[*i].east_m <= high.east_m; ++i) use(*i);
  }
}

std::vector<std::uint32_t> PointIndex::near_unsorted(GridPoint p, double radius_m) const {
  std::vector<std::uint32_t> out;
  const GridPoint reach{radius_m, radius_m};
  visit_box(p - reach, p + reach, [&](std::uint32_t i) {
    if (earth::grid_distance_m(p, points_[i]) <= radius_m) out.push_back(i);
  });
  return out;
}

std::vector<std::uint32_t> PointIndex::near(GridPoint p, double radius_m) const {
  auto out = near_unsorted(p, radius_m);
  std::ranges::sort(out);
  return out;
}

std::vector<std::uint32_t> PointIndex::near_line(std::span<const GridPoint> line,
                                                 double radius_m) const {
  std::vector<std::uint32_t> out;
  const GridPoint reach{radius_m, radius_m};
  const std::size_t last = std::max<std::size_t>(1, line.size() - 1);
  // Short pieces that follow each other are asked for together: their boxes are nearly one.
  for (std::size_t s = 0; s < last;) {
    GridPoint low = line[s], high = line[s];
    std::size_t end = s;
    for (; end < last; ++end) {
      const auto p = line[std::min(end + 1, line.size() - 1)];
      const GridPoint l{std::min(low.east_m, p.east_m), std::min(low.north_m, p.north_m)},
          h{std::max(high.east_m, p.east_m), std::max(high.north_m, p.north_m)};
      if (end > s && std::max(h.east_m - l.east_m, h.north_m - l.north_m) > radius_m) break;
      low = l;
      high = h;
    }
    visit_box(low - reach, high + reach, [&](std::uint32_t i) {
      for (std::size_t k = s; k < end; ++k) {
        const auto a = line[k], b = line[std::min(k + 1, line.size() - 1)];
        const auto on = a + nearest_fraction(a, b, points_[i]) * (b - a);
        if (earth::grid_distance_m(on, points_[i]) > radius_m) continue;
        out.push_back(i);
        break;
      }
    });
    s = end;
  }
  std::ranges::sort(out);
  const auto [first, last_one] = std::ranges::unique(out);
  out.erase(first, last_one);
  return out;
}

}  // namespace lodeway::mapdata
