#include "lodeway/mapdata/line_index.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::mapdata {

namespace {

constexpr double segments_a_bucket = 4;
constexpr int most_buckets_a_side = 2048;

GridPoint nearest_on(GridPoint a, GridPoint b, GridPoint p) {
  const auto d = b - a, q = p - a;
  const double squared = d.east_m * d.east_m + d.north_m * d.north_m;
  const double t = squared > 0 ? std::clamp((q.east_m * d.east_m + q.north_m * d.north_m) / squared, 0.0, 1.0) : 0;
  return a + t * d;
}

double cross(GridPoint a, GridPoint b) { return a.east_m * b.north_m - a.north_m * b.east_m; }

}  // namespace

LineIndex::LineIndex(std::span<const LineFeature> lines) {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  for (std::uint32_t l = 0; l < lines.size(); ++l) {
    double along = 0;
    const auto& p = lines[l].points;
    for (std::uint32_t s = 0; s + 1 < p.size(); ++s) {
      segments_.push_back({p[s], p[s + 1], {l, s}, along});
      along += earth::grid_distance_m(p[s], p[s + 1]);
    }
    for (const auto& q : p) {
      west = std::min(west, q.east_m);
      east = std::max(east, q.east_m);
      south = std::min(south, q.north_m);
      north = std::max(north, q.north_m);
    }
  }
  if (segments_.empty()) return;
  const double size = std::max({east - west, north - south, 1.0});
  const double wanted = std::sqrt(static_cast<double>(segments_.size()) / segments_a_bucket);
  bucket_m_ = size / std::clamp(wanted, 1.0, static_cast<double>(most_buckets_a_side));
  west_ = west;
  south_ = south;
  cols_ = static_cast<int>((east - west) / bucket_m_) + 1;
  rows_ = static_cast<int>((north - south) / bucket_m_) + 1;
  start_.assign(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(cols_) + 1, 0);
  const auto for_buckets = [&](const Segment& s, auto&& use) {
    const auto col = [&](double e) { return static_cast<int>((e - west_) / bucket_m_); };
    const auto row = [&](double n) { return static_cast<int>((n - south_) / bucket_m_); };
    for (int r = row(std::min(s.a.north_m, s.b.north_m)); r <= row(std::max(s.a.north_m, s.b.north_m)); ++r) {
      for (int c = col(std::min(s.a.east_m, s.b.east_m)); c <= col(std::max(s.a.east_m, s.b.east_m)); ++c) {
        use(static_cast<std::size_t>(r * cols_ + c));
      }
    }
  };
  for (const auto& s : segments_) for_buckets(s, [&](std::size_t b) { ++start_[b + 1]; });
  for (std::size_t b = 1; b < start_.size(); ++b) start_[b] += start_[b - 1];
  items_.resize(start_.back());
  auto next = start_;
  for (std::uint32_t i = 0; i < segments_.size(); ++i) {
    for_buckets(segments_[i], [&](std::size_t b) { items_[next[b]++] = i; });
  }
}

template <class Visit>
void LineIndex::visit_box(double west, double south, double east, double north, Visit&& visit) const {
  if (segments_.empty()) return;
  const auto clamp_to = [](double v, int n) { return static_cast<int>(std::clamp(std::floor(v), -1.0, static_cast<double>(n))); };
  const int c0 = std::max(0, clamp_to((west - west_) / bucket_m_, cols_)), c1 = std::min(cols_ - 1, clamp_to((east - west_) / bucket_m_, cols_));
  const int r0 = std::max(0, clamp_to((south - south_) / bucket_m_, rows_)), r1 = std::min(rows_ - 1, clamp_to((north - south_) / bucket_m_, rows_));
  std::vector<std::uint32_t> found;
  for (int r = r0; r <= r1; ++r) {
    for (int c = c0; c <= c1; ++c) {
      const auto b = static_cast<std::size_t>(r * cols_ + c);
      found.insert(found.end(), items_.begin() + start_[b], items_.begin() + start_[b + 1]);
    }
  }
  std::ranges::sort(found);
  const auto [first, last] = std::ranges::unique(found);
  found.erase(first, last);
  for (const auto i : found) visit(segments_[i]);
}

std::vector<NearLine> LineIndex::near(GridPoint p, double radius_m) const {
  std::vector<NearLine> out;
  visit_box(p.east_m - radius_m, p.north_m - radius_m, p.east_m + radius_m, p.north_m + radius_m, [&](const Segment& s) {
    const auto at = nearest_on(s.a, s.b, p);
    const double d = earth::grid_distance_m(p, at);
    if (d > radius_m) return;
    const NearLine near{s.ref, at, s.along_m + earth::grid_distance_m(s.a, at), d};
    if (!out.empty() && out.back().ref.line == s.ref.line) {
      if (d < out.back().distance_m) out.back() = near;
    } else {
      out.push_back(near);
    }
  });
  return out;
}

std::vector<Crossing> LineIndex::crossings(GridPoint a, GridPoint b) const {
  std::vector<Crossing> out;
  const auto d = b - a;
  visit_box(std::min(a.east_m, b.east_m), std::min(a.north_m, b.north_m), std::max(a.east_m, b.east_m), std::max(a.north_m, b.north_m),
            [&](const Segment& s) {
              const auto e = s.b - s.a;
              const double turn = cross(d, e);
              if (turn == 0) return;  // parallel: followed, not crossed
              const double t = cross(s.a - a, e) / turn, u = cross(s.a - a, d) / turn;
              if (t >= 0 && t <= 1 && u >= 0 && u <= 1) out.push_back({s.ref, a + t * d, t});
            });
  std::ranges::stable_sort(out, {}, [](const Crossing& c) { return std::pair(c.at_fraction, c.ref); });
  return out;
}

}  // namespace lodeway::mapdata
