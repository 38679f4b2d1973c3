#include "lodeway/mapdata/line_index.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {

namespace {

constexpr double segments_a_bucket = 4;
constexpr int most_buckets_a_side = 2048;
constexpr double rounding = 1e-9;       // of a square: the quick look loses nothing that is found
constexpr double parallel_sine = 1e-7;  // flatter, rounding alone would say where they meet

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
  for (const auto& s : segments_) for_buckets(s.a, s.b, 0, [&](std::size_t b) { ++start_[b + 1]; });
  for (std::size_t b = 1; b < start_.size(); ++b) start_[b] += start_[b - 1];
  items_.resize(start_.back());
  auto next = start_;
  for (std::uint32_t i = 0; i < segments_.size(); ++i) {
    for_buckets(segments_[i].a, segments_[i].b, 0, [&](std::size_t b) { items_[next[b]++] = i; });
  }
}

/// The buckets that a segment passes within `around_m`, row by row, so that a long slanting one
/// does not take in the whole box about it.
template <class Use>
void LineIndex::for_buckets(GridPoint a, GridPoint b, double around_m, Use&& use) const {
  const auto held = [](double v, int n) {
    return static_cast<int>(std::clamp(std::floor(v), -1.0, static_cast<double>(n)));
  };
  if (a.north_m > b.north_m) std::swap(a, b);
  const double slack = around_m + 1e-6 * bucket_m_, rise = b.north_m - a.north_m;
  const int r0 = std::max(0, held((a.north_m - slack - south_) / bucket_m_, rows_)),
            r1 = std::min(rows_ - 1, held((b.north_m + slack - south_) / bucket_m_, rows_));
  for (int r = r0; r <= r1; ++r) {
    double east0 = a.east_m, east1 = b.east_m;
    if (rise > 0) {  // only what lies in this row and `slack` about it
      const double low = south_ + r * bucket_m_ - slack,
                   high = south_ + (r + 1) * bucket_m_ + slack;
      const auto east = [&](double north) {
        return a.east_m + std::clamp((north - a.north_m) / rise, 0.0, 1.0) * (b.east_m - a.east_m);
      };
      east0 = east(low);
      east1 = east(high);
    }
    if (east0 > east1) std::swap(east0, east1);
    const int c0 = std::max(0, held((east0 - slack - west_) / bucket_m_, cols_)),
              c1 = std::min(cols_ - 1, held((east1 + slack - west_) / bucket_m_, cols_));
    for (int c = c0; c <= c1; ++c) use(static_cast<std::size_t>(r * cols_ + c));
  }
}

/// Every segment that passes by a-b within `around_m` and of which `may_matter` (a quick look, once
/// for each bucket that holds it) says so: once, in the order of lines.
template <class May, class Visit>
void LineIndex::visit(GridPoint a, GridPoint b, double around_m, May&& may_matter,
                      Visit&& use) const {
  if (segments_.empty()) return;
  std::vector<std::uint32_t> found;
  for_buckets(a, b, around_m, [&](std::size_t k) {
    for (auto i = start_[k]; i < start_[k + 1]; ++i) {
      if (may_matter(segments_[items_[i]])) found.push_back(items_[i]);
    }
  });
  std::ranges::sort(found);
  const auto [first, last] = std::ranges::unique(found);
  found.erase(first, last);
  for (const auto i : found) use(segments_[i]);
}

NearLine LineIndex::near_of(const Segment& s, GridPoint p) {
  const auto at = s.a + nearest_fraction(s.a, s.b, p) * (s.b - s.a);
  return {s.ref, at, s.along_m + earth::grid_distance_m(s.a, at), earth::grid_distance_m(p, at)};
}

std::vector<NearLine> LineIndex::near(GridPoint p, double radius_m) const {
  std::vector<NearLine> out;
  const double most = radius_m * radius_m * (1 + rounding);
  const auto may_be_near = [&](const Segment& s) {
    const auto v = s.a + nearest_fraction(s.a, s.b, p) * (s.b - s.a) - p;
    return dot(v, v) <= most;
  };
  visit(p, p, radius_m, may_be_near, [&](const Segment& s) {
    const auto near = near_of(s, p);
    if (near.distance_m > radius_m) return;
    if (!out.empty() && out.back().ref.line == s.ref.line) {
      if (near.distance_m < out.back().distance_m) out.back() = near;
    } else {
      out.push_back(near);
    }
  });
  return out;
}

std::vector<Crossing> LineIndex::crossings(GridPoint a, GridPoint b) const {
  std::vector<Crossing> out;
  const auto d = b - a;
  // both ends of the segment clearly on one side of the line through a and b: they do not meet
  const double clearly = rounding * (1 + dot(d, d));
  const auto may_cross = [&](const Segment& s) {
    const double from = cross(d, s.a - a), to = cross(d, s.b - a);
    return std::min(from, to) <= clearly && std::max(from, to) >= -clearly;
  };
  visit(a, b, 0, may_cross, [&](const Segment& s) {
    const auto e = s.b - s.a;
    const double turn = cross(d, e);
    if (std::abs(turn) <= parallel_sine * length_of(d) * length_of(e)) return;
    const double t = cross(s.a - a, e) / turn, u = cross(s.a - a, d) / turn;
    if (t >= 0 && t <= 1 && u >= 0 && u <= 1) out.push_back({s.ref, a + t * d, t});
  });
  std::ranges::stable_sort(out, {},
                           [](const Crossing& c) { return std::pair(c.at_fraction, c.ref); });
  return out;
}

}  // namespace lodeway::mapdata
