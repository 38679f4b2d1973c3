#include "lodeway/mapdata/polyline.hpp"

#include <cassert>
#include <numbers>

namespace lodeway::mapdata {

std::vector<double> distances_along(std::span<const GridPoint> line) {
  std::vector<double> out;
  out.reserve(line.size());
  double sum = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i > 0) sum += earth::grid_distance_m(line[i - 1], line[i]);
    out.push_back(sum);
  }
  return out;
}

std::size_t Measured::segment(double along_m) const {
  if (line_.size() < 2) return 0;
  const auto found = std::ranges::lower_bound(at_.begin() + 1, at_.end() - 1, along_m);
  return static_cast<std::size_t>(found - at_.begin()) - 1;
}

GridPoint Measured::at(double along_m) const {
  assert(!line_.empty());
  if (along_m <= 0 || line_.size() < 2) return line_.front();
  if (along_m >= at_.back()) return line_.back();
  const auto i = segment(along_m);
  const double run = at_[i + 1] - at_[i];
  return run > 0 ? line_[i] + ((along_m - at_[i]) / run) * (line_[i + 1] - line_[i]) : line_[i];
}

std::vector<GridPoint> Measured::piece(double from_m, double to_m) const {
  if (from_m > to_m) {
    auto out = piece(to_m, from_m);
    std::ranges::reverse(out);
    return out;
  }
  from_m = std::max(from_m, 0.0);
  to_m = std::min(to_m, at_.back());
  std::vector<GridPoint> out{at(from_m)};
  for (std::size_t i = 0; i < line_.size(); ++i) {
    if (at_[i] > from_m && at_[i] < to_m) out.push_back(line_[i]);
  }
  if (const auto last = at(to_m); !(last == out.back()) || out.size() == 1) out.push_back(last);
  return out;
}

std::vector<GridPoint> smoothed(std::vector<GridPoint> line, int times) {
  for (int t = 0; t < times && line.size() > 2; ++t) {
    std::vector<GridPoint> out{line.front()};
    for (std::size_t i = 1; i < line.size(); ++i) {
      const auto a = line[i - 1], b = line[i];
      if (i > 1) out.push_back(0.75 * a + 0.25 * b);
      if (i + 1 < line.size()) out.push_back(0.25 * a + 0.75 * b);
    }
    out.push_back(line.back());
    line = std::move(out);
  }
  line.erase(std::unique(line.begin(), line.end()), line.end());
  return line;
}

std::vector<GridPoint> without_steps(std::vector<GridPoint> line) {
  for (const int half : {3, 2}) {
    auto out = line;
    for (std::size_t i = 1; i + 1 < line.size(); ++i) {
      // The window shrinks towards the ends, which stay where they are.
      const auto w = std::min({static_cast<std::size_t>(half), i, line.size() - 1 - i});
      GridPoint sum{0, 0};
      for (std::size_t j = i - w; j <= i + w; ++j) sum = sum + line[j];
      out[i] = (1.0 / static_cast<double>(2 * w + 1)) * sum;
    }
    line = std::move(out);
  }
  std::vector<GridPoint> thin;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i % 2 == 0 || i + 1 == line.size()) thin.push_back(line[i]);
  }
  return smoothed(std::move(thin), 1);
}

std::vector<GridPoint> simplify(std::span<const GridPoint> line, double most_m) {
  if (line.size() < 3) return {line.begin(), line.end()};
  std::vector<bool> kept(line.size(), false);
  kept.front() = kept.back() = true;
  std::vector<std::pair<std::size_t, std::size_t>> open{{0, line.size() - 1}};
  while (!open.empty()) {
    const auto [first, last] = open.back();
    open.pop_back();
    double worst = most_m;
    std::size_t at = 0;
    for (std::size_t i = first + 1; i < last; ++i) {
      const double t = nearest_fraction(line[first], line[last], line[i]);
      const auto on = line[first] + t * (line[last] - line[first]);
      if (const double d = earth::grid_distance_m(line[i], on); d > worst) {
        worst = d;
        at = i;
      }
    }
    if (at == 0) continue;
    kept[at] = true;
    open.emplace_back(first, at);
    open.emplace_back(at, last);
  }
  std::vector<GridPoint> out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (kept[i]) out.push_back(line[i]);
  }
  return out;
}

std::vector<Bend> sharp_bends(std::span<const GridPoint> line, double reach_m, double least_deg) {
  std::vector<Bend> all, out;
  if (line.size() < 3) return out;
  const Measured m(line);
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    const double at = m.distances()[i];
    if (at < reach_m || at > m.length_m() - reach_m) continue;
    const auto in = line[i] - m.at(at - reach_m), on = m.at(at + reach_m) - line[i];
    const double turn = std::atan2(-cross(in, on), dot(in, on)) * 180 / std::numbers::pi;
    if (std::abs(turn) >= least_deg) all.push_back({at, line[i], turn});
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double own = std::abs(all[i].turn_deg);
    bool largest = true;  // of equal ones the first
    for (std::size_t k = i; k-- > 0 && all[i].along_m - all[k].along_m <= reach_m;)
      largest = largest && std::abs(all[k].turn_deg) < own;
    for (std::size_t k = i + 1; k < all.size() && all[k].along_m - all[i].along_m <= reach_m; ++k)
      largest = largest && std::abs(all[k].turn_deg) <= own;
    if (largest) out.push_back(all[i]);
  }
  return out;
}

}  // namespace lodeway::mapdata
