#include "lodeway/reckoning/ends/line_target.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

#include "lodeway/numeric/normal_table.hpp"

namespace lodeway::reckoning {

using earth::GridPoint;

namespace {
constexpr double narrow = 1e-6;  // radians: 1 mm at a kilometre
constexpr double far_out = 7;    // sigmas; 3e-12 of all are farther
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

constexpr double widest = 1.5;  // radians: what lies behind is not looked at
constexpr std::uint32_t sectors = 64;
constexpr std::size_t few_pieces = 4;

/// Grows with the angle from ahead, -1 to 1 at the sides, without an arc tangent; ahead.north_m >
/// 0.
double turn_to(GridPoint ahead) { return ahead.east_m / (std::abs(ahead.east_m) + ahead.north_m); }

/// Between which turns a straight piece lies; what of it is behind does not count.
std::pair<double, double> turns_of(GridPoint a, GridPoint b) {
  if (a.north_m <= 0) std::swap(a, b);
  const double one = turn_to(a);
  if (b.north_m <= 0) {
    // leaves to the side on which it passes the start
    const double left = a.east_m * b.north_m - a.north_m * b.east_m;
    return left > 0 ? std::pair{-1.0, one} : left < 0 ? std::pair{one, 1.0} : std::pair{-1.0, 1.0};
  }
  return std::minmax({one, turn_to(b)});
}

/// Fills in between two rays until the line is straight in angle between neighbours, or a break is
/// narrow.
void refine(const LineCaster& caster, double straight_m, std::vector<Ray>& out, const Ray& a,
            const Ray& b) {
  const bool met_a = !std::isnan(a.along_m), met_b = !std::isnan(b.along_m);
  if (b.angle - a.angle > narrow && (met_a || met_b)) {
    const Ray m = caster.cast(0.5 * (a.angle + b.angle));
    const bool met_m = !std::isnan(m.along_m);
    const bool straight =
        met_a && met_b && met_m && std::abs(m.along_m - 0.5 * (a.along_m + b.along_m)) < straight_m;
    if (!straight) {
      refine(caster, straight_m, out, a, m);
      refine(caster, straight_m, out, m, b);
      return;
    }
  }
  out.push_back(b);
}

/// A normal error: the chance to be below z, and the density there.
struct Normal {
  double z, below, density;
  explicit Normal(double at)
      : z(at), below(numeric::normal_table.cdf(at)), density(numeric::normal_table.density(at)) {}
};

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

std::vector<LinePiece> pieces_within(std::span<const GridPoint> line, GridPoint about,
                                     double reach) {
  std::vector<LinePiece> out;
  double along = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const GridPoint a = line[i - 1], b = line[i];
    const double length = earth::grid_distance_m(a, b);
    const auto [west, east] = std::minmax(a.east_m, b.east_m);
    const auto [south, north] = std::minmax(a.north_m, b.north_m);
    if (length > 0 && west - about.east_m <= reach && east - about.east_m >= -reach &&
        south - about.north_m <= reach && north - about.north_m >= -reach)
      out.push_back({a, b, along, length});
    along += length;
  }
  return out;
}

LineCaster::LineCaster(GridPoint from, double toward, double half_width,
                       std::span<const LinePiece> line, double reach, double leaving)
    : toward_(toward), reach_(reach), leaving_(std::max(leaving, 0.01)) {
  constexpr double hair = 1e-9;
  const double half = std::min(half_width, widest), s = std::sin(toward), c = std::cos(toward);
  widest_turn_ = turn_to({std::sin(half), std::cos(half)}) + hair;
  const auto turned = [&](GridPoint p) {
    const GridPoint w = p - from;
    return GridPoint{w.east_m * c - w.north_m * s, w.east_m * s + w.north_m * c};
  };
  std::vector<std::pair<std::uint32_t, std::uint32_t>> seen_in;
  for (const LinePiece& piece : line) {
    const GridPoint a = turned(piece.a), b = turned(piece.b);
    if ((a.north_m <= 0 && b.north_m <= 0) || std::min(a.north_m, b.north_m) > reach ||
        std::min(a.east_m, b.east_m) > reach || std::max(a.east_m, b.east_m) < -reach)
      continue;
    const auto [first, last] = turns_of(a, b);
    if (first > widest_turn_ || last < -widest_turn_) continue;
    seen_in.emplace_back(sector(first - hair), sector(last + hair));
    pieces_.push_back({a, b - a, piece.along_m, piece.length_m});
  }
  if (pieces_.size() < few_pieces) return;
  start_.assign(sectors + 1, 0);
  for (const auto& [first, last] : seen_in) {
    for (auto k = first; k <= last; ++k) ++start_[k + 1];
  }
  for (std::size_t k = 1; k < start_.size(); ++k) start_[k] += start_[k - 1];
  seen_.resize(start_.back());
  auto next = start_;
  for (std::uint32_t i = 0; i < pieces_.size(); ++i) {
    for (auto k = seen_in[i].first; k <= seen_in[i].second; ++k) seen_[next[k]++] = i;
  }
}

std::uint32_t LineCaster::sector(double turn) const {
  const double share = (turn + widest_turn_) / (2 * widest_turn_);
  return static_cast<std::uint32_t>(std::clamp(share * sectors, 0.0, sectors - 1.0));
}

Ray LineCaster::cast(double angle) const {
  Ray ray{angle, nothing, reach_};
  if (std::abs(angle - toward_) > widest + 1e-9) return ray;
  const double s = std::sin(angle - toward_), c = std::cos(angle - toward_);
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
    const auto k = sector(turn_to({s, c}));
    for (auto i = start_[k]; i < start_[k + 1]; ++i) meet(pieces_[seen_[i]]);
  }
  return ray;
}

Fan::Fan(GridPoint from, double toward, double half_width, std::span<const LinePiece> line,
         double reach, double leaving, FanRule rule) {
  const LineCaster caster(from, toward, half_width, line, reach, leaving);
  const double step = 2 * half_width / rule.rays;
  Ray last = caster.cast(toward - half_width);
  rays_.push_back(last);
  for (int i = 1; i <= rule.rays; ++i) {
    const Ray next = caster.cast(toward - half_width + i * step);
    refine(caster, rule.straight_m, rays_, last, next);
    last = next;
  }
}

std::vector<double> Fan::turns_in_sigmas(const CrossGrowth& cross) const {
  std::vector<double> out;
  out.reserve(rays_.size());
  for (const Ray& ray : rays_) out.push_back(cross.sigmas(1, ray.distance_m));
  return out;
}

Meeting Fan::meet(double aim, std::span<const double> turns, double target, double window,
                  double gives_up, double give_up_sigma, double search) const {
  std::vector<Piece> pieces;
  pieces.reserve(rays_.size());
  bool folded = false;
  for (std::size_t i = 1; i < rays_.size(); ++i) {
    const Ray &a = rays_[i - 1], &b = rays_[i];
    if (std::isnan(a.along_m) || std::isnan(b.along_m)) continue;
    if (b.angle - a.angle <= 2 * narrow && std::abs(b.along_m - a.along_m) > 1)
      continue;  // a break
    const double za = (a.angle - aim) * turns[i - 1], zb = (b.angle - aim) * turns[i];
    if (std::max(za, zb) < -far_out || std::min(za, zb) > far_out || za == zb) continue;
    Piece p{za, zb, a.along_m, b.along_m, 0.5 * (a.distance_m + b.distance_m)};
    if (zb < za) p = {zb, za, b.along_m, a.along_m, p.far_m};
    folded |= zb < za || (!pieces.empty() && za < pieces.back().to - 1e-9);
    pieces.push_back(p);
  }
  if (folded) pieces = nearest_of(std::move(pieces));
  Meeting m;
  Normal last(-9);
  for (const Piece& p : pieces) {
    const double reached = give_up_sigma > 0
                               ? numeric::normal_table.cdf((gives_up - p.far_m) / give_up_sigma)
                               : (p.far_m <= gives_up ? 1.0 : 0.0);
    const double slope = p.slope(), level = p.along_from - slope * p.from - target;
    if (p.from != last.z) last = Normal(p.from);
    const auto add = [&](double to) {
      const Normal next(to);
      const double chance = reached * (next.below - last.below);
      // the mean of what is within, times its chance
      const double along = level * chance + slope * reached * (last.density - next.density);
      const double middle = level + slope * 0.5 * (last.z + to);
      if (middle > window) {
        m.ahead += chance;
        m.ahead_m += along;
        if (middle > window + search) m.ahead_far += chance;
      } else if (middle < -window) {
        m.before += chance;
        m.before_m -= along;
        if (middle < -window - search) m.before_far += chance;
      } else {
        m.within += chance;
      }
      last = next;
    };
    // the ends of window and search cut the piece into at most five
    const double one = p.along_from - target, other = p.along_to - target;
    const double low = std::min(one, other), high = std::max(one, other);
    const double sign = slope > 0 ? 1 : -1;
    for (const double cut : {-window - search, -window, window, window + search}) {
      const double end = sign * cut;
      if (low < end && end < high) add(std::clamp((end - level) / slope, last.z, p.to));
    }
    add(p.to);
  }
  m.missed = std::max(0.0, 1 - m.ahead - m.within - m.before);
  if (m.ahead > 0) m.ahead_m /= m.ahead;
  if (m.before > 0) m.before_m /= m.before;
  return m;
}

}  // namespace lodeway::reckoning
