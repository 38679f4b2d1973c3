#include "lodeway/reckoning/line_target.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

#include "lodeway/numeric/normal.hpp"

namespace lodeway::reckoning {

using earth::GridPoint;

namespace {
constexpr int first_rays = 64;
constexpr double narrow = 1e-6;  // radians: 1 mm at a kilometre
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// Plain roots: metres of a map neither overflow nor vanish, and hypot is ten times dearer.
double size_of(GridPoint v) {
  return std::sqrt(v.east_m * v.east_m + v.north_m * v.north_m);
}

constexpr std::uint32_t horizon = 128;  // sectors
constexpr std::size_t few_pieces = 8;

/// Grows with the bearing, from 0 at north over 1 at east to 4: quarter turns, without an arc
/// tangent. Opposite directions are 2 apart.
double turns(GridPoint v) {
  const double x = v.east_m / (std::abs(v.east_m) + std::abs(v.north_m));
  return v.north_m < 0 ? 2 - x : v.east_m < 0 ? 4 + x : x;
}
std::uint32_t sector(double at) {
  return static_cast<std::uint32_t>(std::clamp(at * (horizon / 4.0), 0.0, horizon - 1.0));
}

/// The sectors in which a straight piece is seen from the origin, and a hair more: the first and how
/// many.
std::pair<std::uint32_t, std::uint32_t> sectors_of(GridPoint a, GridPoint b) {
  constexpr double hair = 1e-9;
  double from = turns(a), to = turns(b), turn = to - from;
  if (turn < 0) {
    std::swap(from, to);
    turn = -turn;
  }
  if (turn > 2) {
    std::swap(from, to);
    turn = 4 - turn;
  }
  if (!(turn < 2 - 1e-6)) return {0, horizon};  // the origin lies on it, or is its end
  from -= hair;
  to += hair;
  const auto first = sector(from < 0 ? from + 4 : from), last = sector(to > 4 ? to - 4 : to);
  return {first, (last + horizon - first) % horizon + 1};
}

/// Fills in between two rays until the line is straight in angle between neighbours, or a break is
/// narrow.
void refine(const LineCaster& caster, std::vector<Ray>& out, const Ray& a, const Ray& b) {
  const bool met_a = !std::isnan(a.along_m), met_b = !std::isnan(b.along_m);
  if (b.angle - a.angle > narrow && (met_a || met_b)) {
    const Ray m = caster.cast(0.5 * (a.angle + b.angle));
    const bool met_m = !std::isnan(m.along_m);
    const bool straight = met_a && met_b && met_m &&
                          std::abs(m.along_m - 0.5 * (a.along_m + b.along_m)) < 0.5;
    if (!straight) {
      refine(caster, out, a, m);
      refine(caster, out, m, b);
      return;
    }
  }
  out.push_back(b);
}

/// Chance and mean of a normal within (a, b).
struct Slice {
  double chance, mean;
};
Slice slice_between(double a, double b) {
  const double chance = numeric::normal_cdf(b) - numeric::normal_cdf(a);
  if (chance < 1e-14) return {0, 0.5 * (a + b)};
  return {chance, (numeric::normal_density(a) - numeric::normal_density(b)) / chance};
}

/// What neighbouring rays find of the line, by the sigmas of the cross error that leads there.
struct Piece {
  double from, to;  ///< sigmas, from < to
  double along_from, along_to;
  double far_m;
  [[nodiscard]] double slope() const { return (along_to - along_from) / (to - from); }
  [[nodiscard]] double along_at(double z) const { return along_from + slope() * (z - from); }
};

/// A line that runs near the start too is met by one error in two places, near and far: who meets
/// it near does not come to the other. Of pieces that overlap the nearest, so that no error counts
/// twice.
std::vector<Piece> nearest_of(std::vector<Piece> pieces) {
  std::ranges::stable_sort(pieces, {}, &Piece::from);
  std::vector<double> cuts;
  for (const Piece& p : pieces) cuts.insert(cuts.end(), {p.from, p.to});
  std::ranges::sort(cuts);
  std::vector<Piece> out, here;
  std::size_t next = 0;
  for (std::size_t k = 1; k < cuts.size(); ++k) {
    const double from = cuts[k - 1], to = cuts[k];
    if (!(to > from)) continue;
    while (next < pieces.size() && pieces[next].from <= from) here.push_back(pieces[next++]);
    std::erase_if(here, [&](const Piece& p) { return p.to <= from; });
    if (here.empty()) continue;
    const Piece& p = *std::ranges::min_element(here, {}, &Piece::far_m);
    out.push_back({from, to, p.along_at(from), p.along_at(to), p.far_m});
  }
  return out;
}
}  // namespace

LineCaster::LineCaster(GridPoint from, std::span<const GridPoint> line, double reach,
                       double leaving)
    : reach_(reach), leaving_(std::max(leaving, 0.01)) {
  double along = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const GridPoint a = line[i - 1] - from, b = line[i] - from, d = b - a;
    const double length = size_of(d);
    const bool beyond = std::min(a.east_m, b.east_m) > reach || std::max(a.east_m, b.east_m) < -reach ||
                        std::min(a.north_m, b.north_m) > reach ||
                        std::max(a.north_m, b.north_m) < -reach;
    if (length > 0 && !beyond) {
      const double t =
          std::clamp(-(a.east_m * d.east_m + a.north_m * d.north_m) / (length * length), 0.0, 1.0);
      if (size_of(a + t * d) <= reach) pieces_.push_back({a, d, along, length});
    }
    along += length;
  }
  if (pieces_.size() < few_pieces) return;
  const auto sectors = [](const Piece& p) { return sectors_of(p.a, p.a + p.d); };
  start_.assign(horizon + 1, 0);
  for (const auto& p : pieces_) {
    const auto [first, count] = sectors(p);
    for (std::uint32_t k = 0; k < count; ++k) ++start_[(first + k) % horizon + 1];
  }
  for (std::size_t k = 1; k < start_.size(); ++k) start_[k] += start_[k - 1];
  seen_.resize(start_.back());
  auto next = start_;
  for (std::uint32_t i = 0; i < pieces_.size(); ++i) {
    const auto [first, count] = sectors(pieces_[i]);
    for (std::uint32_t k = 0; k < count; ++k) seen_[next[(first + k) % horizon]++] = i;
  }
}

Ray LineCaster::cast(double angle) const {
  const double s = std::sin(angle), c = std::cos(angle);
  Ray ray{angle, nothing, reach_};
  const auto meet = [&](const Piece& p) {
    const double cross = s * p.d.north_m - c * p.d.east_m;
    if (cross == 0) return;
    const double t = (c * p.a.east_m - s * p.a.north_m) / cross;  // along the piece, 0 to 1
    if (t < 0 || t > 1) return;
    const double distance = (p.a.east_m * p.d.north_m - p.a.north_m * p.d.east_m) / cross;
    if (distance <= leaving_ || distance > ray.distance_m) return;
    ray.distance_m = distance;
    ray.along_m = p.along + t * p.length;
  };
  if (start_.empty()) {
    for (const Piece& p : pieces_) meet(p);
  } else {
    const auto k = sector(turns({s, c}));
    for (auto i = start_[k]; i < start_[k + 1]; ++i) meet(pieces_[seen_[i]]);
  }
  return ray;
}

Ray cast_ray(GridPoint from, double angle, std::span<const GridPoint> line, double reach) {
  return LineCaster(from, line, reach).cast(angle);
}

Fan::Fan(GridPoint from, double toward, double half_width, std::span<const GridPoint> line,
         double reach, double leaving) {
  const LineCaster caster(from, line, reach, leaving);
  const double step = 2 * half_width / first_rays;
  Ray last = caster.cast(toward - half_width);
  rays_.push_back(last);
  for (int i = 1; i <= first_rays; ++i) {
    const Ray next = caster.cast(toward - half_width + i * step);
    refine(caster, rays_, last, next);
    last = next;
  }
}

Meeting Fan::meet(double aim, const CrossGrowth& cross, double target, double window,
                  double gives_up, double give_up_sigma) const {
  std::vector<Piece> pieces;
  pieces.reserve(rays_.size());
  bool folded = false;
  for (std::size_t i = 1; i < rays_.size(); ++i) {
    const Ray &a = rays_[i - 1], &b = rays_[i];
    if (std::isnan(a.along_m) || std::isnan(b.along_m)) continue;
    if (b.angle - a.angle <= 2 * narrow && std::abs(b.along_m - a.along_m) > 1) continue;  // a break
    const double za = cross.sigmas(a.angle - aim, a.distance_m),
                 zb = cross.sigmas(b.angle - aim, b.distance_m);
    if (std::max(za, zb) < -8 || std::min(za, zb) > 8 || za == zb) continue;
    Piece p{za, zb, a.along_m, b.along_m, 0.5 * (a.distance_m + b.distance_m)};
    if (zb < za) p = {zb, za, b.along_m, a.along_m, p.far_m};
    folded |= zb < za || (!pieces.empty() && za < pieces.back().to - 1e-9);
    pieces.push_back(p);
  }
  if (folded) pieces = nearest_of(std::move(pieces));
  Meeting m;
  double ahead_sum = 0, before_sum = 0;
  for (const Piece& p : pieces) {
    const double slope = p.slope();
    const double reached = give_up_sigma > 0
                               ? numeric::normal_cdf((gives_up - p.far_m) / give_up_sigma)
                               : (p.far_m <= gives_up ? 1.0 : 0.0);
    // the window's two ends cut the piece into at most three
    double cuts[4] = {p.from, p.from, p.to, p.to};
    if (slope != 0) {
      const double u = p.from + (target - window - p.along_from) / slope;
      const double v = p.from + (target + window - p.along_from) / slope;
      cuts[1] = std::clamp(std::min(u, v), p.from, p.to);
      cuts[2] = std::clamp(std::max(u, v), p.from, p.to);
    }
    for (int k = 0; k < 3; ++k) {
      if (!(cuts[k + 1] > cuts[k])) continue;
      const Slice part = slice_between(cuts[k], cuts[k + 1]);
      const double chance = part.chance * reached;
      const double middle = p.along_at(0.5 * (cuts[k] + cuts[k + 1])) - target;
      const double mean = p.along_at(part.mean) - target;
      if (middle > window) {
        m.ahead += chance;
        ahead_sum += chance * mean;
      } else if (middle < -window) {
        m.before += chance;
        before_sum -= chance * mean;
      } else {
        m.within += chance;
      }
    }
  }
  m.missed = std::max(0.0, 1 - m.ahead - m.within - m.before);
  if (m.ahead > 0) m.ahead_m = ahead_sum / m.ahead;
  if (m.before > 0) m.before_m = before_sum / m.before;
  return m;
}

GridPoint point_along(std::span<const GridPoint> line, double along) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double length = size_of(line[i] - line[i - 1]);
    if (along <= length && length > 0)
      return line[i - 1] + std::max(along, 0.0) / length * (line[i] - line[i - 1]);
    along -= length;
  }
  return line.back();
}

double along_of(std::span<const GridPoint> line, GridPoint p) {
  double best = std::numeric_limits<double>::infinity(), found = 0, along = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const GridPoint d = line[i] - line[i - 1], w = p - line[i - 1];
    const double length = size_of(d);
    if (length <= 0) continue;
    const double t = std::clamp((w.east_m * d.east_m + w.north_m * d.north_m) / length, 0.0, length);
    const double away = size_of(line[i - 1] + t / length * d - p);
    if (away < best) {
      best = away;
      found = along + t;
    }
    along += length;
  }
  return found;
}

double direction_at(std::span<const GridPoint> line, double along) {
  std::size_t i = 1;
  for (; i + 1 < line.size(); ++i) {
    const double length = size_of(line[i] - line[i - 1]);
    if (along < length) break;
    along -= length;
  }
  const GridPoint d = line[i] - line[i - 1];
  return std::atan2(d.east_m, d.north_m);
}

}  // namespace lodeway::reckoning
