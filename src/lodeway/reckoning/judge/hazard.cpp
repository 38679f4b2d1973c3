#include "lodeway/reckoning/judge/hazard.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>
#include <vector>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/normal_table.hpp"

namespace lodeway::reckoning {

namespace {
using earth::GridPoint;

constexpr std::size_t knots = 16, modes = 3;

/// Of `count` points that fill the cube evenly the one numbered `i`: a lattice of one rank (Korobov
/// 1959), each coordinate in as many equal parts as there are points. The first, whose sign the
/// other hand has too, is positive.
using Normals = std::array<double, 2 + modes>;
Normals even_normals(int i, int count) {
  constexpr std::array<int, 2 + modes> turns{1, 3, 5, 7, 11};
  Normals z{};
  for (std::size_t k = 0; k < z.size(); ++k) {
    const double part = (i * turns[k] % count + 0.5) / count;
    z[k] = numeric::normal_quantile(k == 0 ? 0.5 + 0.5 * part : part);
  }
  return z;
}
constexpr int usual_pairs = HazardRule{}.tracks / 2;
const auto usual_normals = [] {
  std::array<Normals, usual_pairs> out{};
  for (int i = 0; i < usual_pairs; ++i) {
    out[static_cast<std::size_t>(i)] = even_normals(i, usual_pairs);
  }
  return out;
}();

/// Karhunen and Loeve's series of a Brownian path, at the knots.
const auto waves = [] {
  std::array<std::array<double, modes>, knots + 1> out{};
  for (std::size_t k = 0; k <= knots; ++k) {
    for (std::size_t m = 0; m < modes; ++m) {
      const double turn = (static_cast<double>(m) + 0.5) * std::numbers::pi;
      out[k][m] = std::sin(turn * static_cast<double>(k) / knots) / turn;
    }
  }
  return out;
}();

/// A place on the leg's own axes: turned so that the leg goes north from (0, 0).
using OnLeg = GridPoint;

/// What one track has of its own: where it starts, and how its sightings wander.
struct Track {
  OnLeg start;
  std::array<double, knots + 1> wander_m{};
};

/// Wandering as a Brownian path: the first terms of its series, brought to its whole variance.
Track track_of(const LegGrowth& g, double reach, int i, int pairs, double hand) {
  constexpr double share_of_modes = 0.9331;
  const Normals z =
      pairs == usual_pairs ? usual_normals[static_cast<std::size_t>(i)] : even_normals(i, pairs);
  const double cross = std::sqrt(std::max(g.start_cross_m2, 0.0));
  const double along = std::sqrt(std::max(g.start_along_m2, 0.0));
  const double both =
      cross > 0 && along > 0 ? std::clamp(g.start_both_m2 / (cross * along), -1.0, 1.0) : 0;
  Track t{{hand * cross * z[0], along * (both * hand * z[0] + std::sqrt(1 - both * both) * z[1])}};
  const double size = hand * std::sqrt(2 * g.wander_m * reach / share_of_modes);
  for (std::size_t k = 0; k <= knots; ++k) {
    t.wander_m[k] = size * (z[2] * waves[k][0] + z[3] * waves[k][1] + z[4] * waves[k][2]);
  }
  return t;
}

/// A walk on its own axes.
class Corridor {
 public:
  Corridor(const HazardGround& ground, const Walk& walk)
      : ground_(ground),
        walk_(walk),
        ahead_{std::sin(walk.bearing.in_radians()), std::cos(walk.bearing.in_radians())},
        mark_(on_leg(walk.mark)),
        reach_(walk.length_m + walk.beyond_m),
        count_sigma_(std::sqrt(walk.growth.count_m2(reach_))),
        farthest_(reach_ + 4 * count_sigma_) {}

  [[nodiscard]] GridPoint on_grid(OnLeg p) const { return walk_.from + turned(p); }
  [[nodiscard]] GridPoint turned(OnLeg v) const {
    return {v.north_m * ahead_.east_m + v.east_m * ahead_.north_m,
            v.north_m * ahead_.north_m - v.east_m * ahead_.east_m};
  }
  [[nodiscard]] double clear_m(GridPoint p) const { return ground_.clear_m(p); }
  [[nodiscard]] const Walk& walk() const { return walk_; }
  [[nodiscard]] OnLeg mark() const { return mark_; }
  [[nodiscard]] double farthest_m() const { return farthest_; }
  /// Is nothing forbidden in reach of any track?
  [[nodiscard]] bool clear() const {
    constexpr double step = 25;
    for (double d = 0; d <= farthest_; d += step) {
      if (clear_m(on_grid({0, d})) < aside_m(d, 5) + step) return false;
    }
    return true;
  }
  /// Those who are on their way yet after d metres, by their count.
  [[nodiscard]] double still(double d) const {
    if (count_sigma_ > 0) return numeric::normal_table.cdf((reach_ - d) / count_sigma_);
    return d <= reach_ ? 1 : 0;
  }
  /// Does one who walks straight from a to b meet the line, elsewhere than where it may be left?
  [[nodiscard]] bool meets_line(OnLeg a, OnLeg b) {
    if (!pieces_) pieces_ = pieces_near();
    const OnLeg d = b - a;
    const double leaving = std::max(walk_.leaving_m, 0.01) / earth::length_of(d);
    return std::ranges::any_of(*pieces_, [&](const Piece& piece) {
      const OnLeg e = piece.second - piece.first, w = piece.first - a;
      const double turn = mapdata::cross(d, e);
      if (turn == 0) return false;
      const double t = mapdata::cross(w, e) / turn, u = mapdata::cross(w, d) / turn;
      return t > leaving && t <= 1 && u >= 0 && u <= 1;
    });
  }

 private:
  using Piece = std::pair<OnLeg, OnLeg>;
  [[nodiscard]] OnLeg on_leg(GridPoint p) const {
    const GridPoint w = p - walk_.from;
    return {-mapdata::cross(ahead_, w), mapdata::dot(ahead_, w)};
  }
  /// How far from the leg a track may be after d metres, at so many sigmas.
  [[nodiscard]] double aside_m(double d, double sigmas) const {
    const LegGrowth& g = walk_.growth;
    return sigmas *
           (std::sqrt(std::max(g.cross_m2(d), 0.0)) + std::sqrt(std::max(g.start_along_m2, 0.0)));
  }
  /// Pieces of the line that a track may come to.
  [[nodiscard]] std::vector<Piece> pieces_near() const {
    // between straight rims, so that who walks straight from within to within stays within
    const double first = aside_m(0, 6), last = aside_m(farthest_, 6);
    std::vector<Piece> out;
    OnLeg a = on_leg(walk_.line.front());
    for (const GridPoint& p : walk_.line.subspan(1)) {
      const OnLeg b = on_leg(p);
      const double from = std::min(a.north_m, b.north_m), to = std::max(a.north_m, b.north_m);
      const double aside = first + (last - first) * std::clamp(to / farthest_, 0.0, 1.0);
      if (to >= -first && from <= farthest_ + first && std::max(a.east_m, b.east_m) >= -aside &&
          std::min(a.east_m, b.east_m) <= aside)
        out.emplace_back(a, b);
      a = b;
    }
    return out;
  }

  const HazardGround& ground_;
  const Walk& walk_;
  GridPoint ahead_;
  OnLeg mark_;
  double reach_, count_sigma_, farthest_;
  std::optional<std::vector<Piece>> pieces_;  // gathered when one is asked for
};

/// One track in all its directions.
class Rays {
 public:
  Rays(Corridor& corridor, const Track& track, int rays, double shift, double hand,
       double least_step)
      : corridor_(corridor),
        track_(track),
        rays_(rays),
        width_(8.0 / rays),
        lowest_(-4 - shift * width_),
        least_step_(least_step),
        knot_m_(corridor.farthest_m() / knots) {
    ways_.reserve(static_cast<std::size_t>(2 * rays) + 1);
    // the direction, given the start's cross error
    const LegGrowth& g = corridor.walk().growth;
    const double lean = g.start_cross_m2 > 0 ? g.start_angle / g.start_cross_m2 : 0;
    const double sigma = std::sqrt(std::max(g.angle2 - lean * g.start_angle, 0.0));
    half_turn_ = 0.5 * sigma * width_;
    // the directions of single rays and of bundles, by half steps: each turned on from the last
    const double first = lean * track.start.east_m + hand * sigma * (lowest_ + 0.5 * width_);
    const double s = hand * std::sin(half_turn_), c = std::cos(half_turn_);
    ways_.push_back({std::sin(first), std::cos(first)});
    for (int k = 0; k < 2 * rays; ++k) {
      const OnLeg w = ways_.back();
      ways_.push_back({w.east_m * c + w.north_m * s, w.north_m * c - w.east_m * s});
    }
    for (std::size_t k = 0; k < knots; ++k) {
      const double bend = (track.wander_m[k + 1] - track.wander_m[k]) / knot_m_;
      const double beside = track.wander_m[k] - bend * knot_m_ * static_cast<double>(k);
      straights_[k] = {corridor.on_grid(track.start + OnLeg{beside, 0}),
                       corridor.turned({bend, 0})};
    }
  }
  /// The chance to tread a forbidden cell.
  [[nodiscard]] double treads() {
    double sum = 0;
    go(0, rays_, least_step_, sum);
    return sum;
  }

 private:
  /// The rays first to last from d on: together, as long as all of them are free or hardly apart.
  void go(int first, int last, double d, double& sum) {
    const OnLeg way = ways_[static_cast<std::size_t>(first + last)];
    const GridPoint straight = corridor_.turned(way);
    const double half = (last - first) * half_turn_;
    const double pace = 0.9 / (1 + half);  // a bent track is a little longer than d, and rays part
    GridPoint from, to;                    // the track as far as `until`: from + d * to
    double until = 0;
    while (d <= corridor_.farthest_m()) {
      if (d >= until) {
        const auto k = knot(d);
        until = k + 1 < knots ? knot_m_ * static_cast<double>(k + 1) : 2 * corridor_.farthest_m();
        from = straights_[k].from;
        to = straight + straights_[k].bend;
      }
      const double clear = corridor_.clear_m(from + d * to), apart = half * d;
      const double free = clear - apart;
      if (free < least_step_ && apart > 0.5 * least_step_) {
        const int middle = (first + last) / 2;
        go(first, middle, d, sum);
        go(middle + 1, last, d, sum);
        return;
      }
      if (clear < 0) {
        sum += share(first, last, way, d);
        return;
      }
      d += std::max(pace * free, least_step_);
    }
  }
  [[nodiscard]] std::size_t knot(double d) const {
    return std::min(static_cast<std::size_t>(d / knot_m_), knots - 1);
  }
  [[nodiscard]] OnLeg at(OnLeg way, double d) const {
    const auto k = knot(d);
    const double wander = track_.wander_m[k] + (d / knot_m_ - static_cast<double>(k)) *
                                                   (track_.wander_m[k + 1] - track_.wander_m[k]);
    return {track_.start.east_m + d * way.east_m + wander, track_.start.north_m + d * way.north_m};
  }
  /// Of those on rays that come to forbidden ground after d metres.
  [[nodiscard]] double share(int first, int last, OnLeg way, double d) {
    const Walk& walk = corridor_.walk();
    double still = corridor_.still(d);
    if (walk.seen_from_m > 0 && sees_mark(way, d)) still *= 1 - walk.known;
    if (!walk.line.empty() && walk.line_known > 0 && corridor_.meets_line(track_.start, at(way, d)))
      still *= 1 - walk.line_known;
    return still * (numeric::normal_table.cdf(lowest_ + (last + 1) * width_) -
                    numeric::normal_table.cdf(lowest_ + first * width_));
  }
  /// Has the mark come in sight before d?
  [[nodiscard]] bool sees_mark(OnLeg way, double d) const {
    const OnLeg mark = corridor_.mark();
    const double r = corridor_.walk().seen_from_m;
    if (d <= least_step_) return false;  // who stands there at the start has trodden it
    const double from = (mark.north_m - r - track_.start.north_m) / std::max(way.north_m, 0.1);
    for (double a = knot_m_ * std::max(0.0, std::floor(from / knot_m_)); a < d; a += knot_m_) {
      const OnLeg p = at(way, a), q = at(way, std::min(a + knot_m_, d));
      if (p.north_m > mark.north_m + r && way.north_m > 0) return false;
      if (earth::grid_distance_m(p + mapdata::nearest_fraction(p, q, mark) * (q - p), mark) < r)
        return true;
    }
    return false;
  }

  Corridor& corridor_;
  const Track& track_;
  int rays_;
  double width_, lowest_;  // of the rays, in sigmas
  double least_step_, knot_m_;
  double half_turn_ = 0;  // from ray to ray, halved
  std::vector<OnLeg> ways_;
  /// A track between two knots, less the d metres of its ray's way: from + d * bend.
  struct Straight {
    GridPoint from, bend;
  };
  std::array<Straight, knots> straights_;
};
}  // namespace

double hazard_probability(const HazardGround& ground, const Walk& walk, HazardRule rule) {
  if (!ground.any() || walk.length_m <= 0) return 0;
  Corridor corridor(ground, walk);
  if (corridor.clear()) return 0;
  const int pairs = std::max(rule.tracks / 2, 1);
  double sum = 0;
  for (int t = 0; t < rule.tracks; ++t) {
    const int pair = t / 2;
    const double hand = t % 2 == 0 ? 1 : -1;
    const Track track = track_of(walk.growth, corridor.farthest_m(), pair, pairs, hand);
    // each pair of tracks parts the directions elsewhere
    const double shift = (pair + 0.5) / pairs;
    sum +=
        Rays(corridor, track, rule.rays, shift, hand, 0.5 * ground.cells().frame().cell_m).treads();
  }
  return std::clamp(sum / rule.tracks, 0.0, 1.0);
}

}  // namespace lodeway::reckoning
