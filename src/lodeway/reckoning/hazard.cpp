#include "lodeway/reckoning/hazard.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/line_target.hpp"

namespace lodeway::reckoning {

namespace {
using earth::GridPoint;

/// std::hypot guards against overflow, at several times the cost; these are metres on a map.
double squared_length(GridPoint v) { return v.east_m * v.east_m + v.north_m * v.north_m; }

constexpr int wander_knots = 32, modes = 3;

/// What one track has of its own: where it starts, and how its sightings wander.
struct Track {
  double beside_m = 0, ahead_m = 0;
  std::array<double, wander_knots + 1> wander_m{};
};

/// Points that fill the cube evenly: the generalised golden ratio of five dimensions, the root of
/// x^6 = x + 1.
std::array<double, 2 + modes> even_normals(int i) {
  constexpr double root = 1.1347241384015194;
  std::array<double, 2 + modes> z{};
  double step = 1;
  for (double& value : z) {
    step /= root;
    value = numeric::normal_quantile(std::fmod(0.5 + (i + 1) * step, 1.0));
  }
  return z;
}

/// Wandering as a Brownian path: the first terms of Karhunen and Loeve's series, brought to its
/// whole variance.
Track track_of(const Walk& walk, double reach, int i, double sign) {
  constexpr double share_of_modes = 0.9331;
  const auto z = even_normals(i);
  Track t;
  const double cross = std::sqrt(std::max(walk.growth.start_cross_m2, 0.0));
  const double along = std::sqrt(std::max(walk.growth.start_along_m2, 0.0));
  const double both = cross > 0 && along > 0
                          ? std::clamp(walk.growth.start_both_m2 / (cross * along), -1.0, 1.0)
                          : 0;
  t.beside_m = sign * cross * z[0];
  t.ahead_m = along * (both * sign * z[0] + std::sqrt(1 - both * both) * z[1]);
  const double size = std::sqrt(2 * walk.growth.wander_m * reach / share_of_modes);
  for (int k = 0; k <= wander_knots; ++k) {
    for (int m = 0; m < modes; ++m) {
      const double turn = (m + 0.5) * std::numbers::pi;
      t.wander_m[static_cast<std::size_t>(k)] +=
          sign * size * z[static_cast<std::size_t>(2 + m)] *
          std::sin(turn * k / wander_knots) / turn;
    }
  }
  return t;
}
}  // namespace

HazardGround::HazardGround(Forbidden cells) : cells_(std::move(cells)) {
  if (cells_.empty()) return;
  // Borgefors 1986, Computer Vision, Graphics, and Image Processing 34:344-371: two passes with
  // steps of 1 and the root of 2, at most 8.2 % too long
  constexpr float far = 1e9F, too_long = 1.0824F;
  const auto& f = cells_.frame();
  away_ = terrain::Raster<float>(f, far);
  const auto straight = static_cast<float>(f.cell_m);
  const float slant = straight * std::numbers::sqrt2_v<float>;
  const auto rows = static_cast<std::size_t>(f.rows), cols = static_cast<std::size_t>(f.cols);
  for (std::size_t i = 0; i < cells_.cells().size(); ++i) {
    if (cells_.cells()[i] == 0) continue;
    away_.cells()[i] = 0;
    any_ = true;
  }
  if (!any_) return;  // clear_m does not look
  // From the row before, all columns at once; then along the row, each from its neighbour.
  const auto from_row = [&](const float* before, float* row) {
    for (std::size_t c = 0; c < cols; ++c) row[c] = std::min(row[c], before[c] + straight);
    for (std::size_t c = 1; c < cols; ++c) row[c] = std::min(row[c], before[c - 1] + slant);
    for (std::size_t c = 0; c + 1 < cols; ++c) row[c] = std::min(row[c], before[c + 1] + slant);
  };
  float* first = away_.cells().data();
  for (std::size_t r = 0; r < rows; ++r) {
    float* row = first + r * cols;
    if (r > 0) from_row(row - cols, row);
    for (std::size_t c = 1; c < cols; ++c) row[c] = std::min(row[c], row[c - 1] + straight);
  }
  for (std::size_t r = rows; r-- > 0;) {
    float* row = first + r * cols;
    if (r + 1 < rows) from_row(row + cols, row);
    for (std::size_t c = cols - 1; c-- > 0;) row[c] = std::min(row[c], row[c + 1] + straight);
  }
  for (float& d : away_.cells()) d /= too_long;
}

double HazardGround::clear_m(GridPoint p) const {
  if (!any_) return std::numeric_limits<double>::infinity();
  const auto& f = cells_.frame();
  const auto [row, col] = f.cell_of(p);
  if (f.holds(row, col)) return static_cast<double>(away_[row, col]) - 1.5 * f.cell_m;
  // outside: at least as far as the raster is
  const GridPoint inside{std::clamp(p.east_m, f.west_m, f.east_m()),
                         std::clamp(p.north_m, f.south_m(), f.north_m)};
  return earth::grid_distance_m(p, inside);
}

double hazard_probability(const HazardGround& ground, const Walk& walk, HazardRule rule) {
  if (!ground.any() || walk.length_m <= 0) return 0;
  const LegGrowth& g = walk.growth;
  const terrain::Frame& frame = ground.cells().frame();
  const double reach = walk.length_m + walk.beyond_m;
  const double count_sigma = std::sqrt(g.count_m2(reach));
  const double farthest = reach + 4 * count_sigma;
  const GridPoint ahead{std::sin(walk.bearing), std::cos(walk.bearing)},
      right{ahead.north_m, -ahead.east_m};
  const double least_step = 0.5 * frame.cell_m;
  const double start = std::sqrt(std::max(g.start_along_m2, 0.0));
  bool near = false;
  for (double d = 0; d <= farthest && !near; d += 25) {
    const double wide = 5 * (std::sqrt(std::max(g.cross_m2(d), 0.0)) + start) + 25;
    near = ground.clear_m(walk.from + d * ahead) < wide;
  }
  if (!near) return 0;
  // the direction, given the start's cross error
  const double lean = g.start_cross_m2 > 0 ? g.start_angle / g.start_cross_m2 : 0;
  const double angle_sigma = std::sqrt(std::max(g.angle2 - lean * g.start_angle, 0.0));
  double sum = 0;
  const double width = 8.0 / rule.rays;
  for (int t = 0; t < rule.tracks; ++t) {
    const double hand = t % 2 == 0 ? 1 : -1;
    const Track track = track_of(walk, farthest, t / 2, hand);
    // each pair of tracks parts the directions elsewhere
    const double shift = (t / 2 + 0.5) / std::max(rule.tracks / 2, 1);
    const GridPoint from = walk.from + track.beside_m * right + track.ahead_m * ahead;
    std::optional<LineCaster> to_line;  // made when a ray needs it
    for (int i = 0; i <= rule.rays; ++i) {
      const double low = -4 + (i - shift) * width, high = low + width;
      const double angle = lean * track.beside_m + hand * 0.5 * (low + high) * angle_sigma;
      const GridPoint way = std::cos(angle) * ahead + std::sin(angle) * right;
      double seen = std::numeric_limits<double>::infinity();  // where the mark comes in sight
      for (double d = least_step; d <= farthest;) {
        const double knot = d / farthest * wander_knots;
        const auto k = std::min(static_cast<std::size_t>(knot), std::size_t{wander_knots - 1});
        const double wander = track.wander_m[k] + (knot - static_cast<double>(k)) *
                                                      (track.wander_m[k + 1] - track.wander_m[k]);
        const GridPoint p = from + d * way + wander * right;
        const double clear = ground.clear_m(p);
        const double to_mark = walk.seen_from_m > 0
                                   ? std::sqrt(squared_length(p - walk.mark)) - walk.seen_from_m
                                   : std::numeric_limits<double>::infinity();
        if (to_mark < 0) seen = std::min(seen, d);
        if (clear < 0) {
          const auto [row, col] = frame.cell_of(p);
          if (frame.holds(row, col) && ground.cells()[row, col] != 0) {
            double still = count_sigma > 0 ? numeric::normal_cdf((reach - d) / count_sigma)
                                           : (d <= reach ? 1.0 : 0.0);
            if (d > seen) still *= 1 - walk.known;
            if (!walk.line.empty() && walk.line_known > 0) {
              const GridPoint gone = p - from;
              if (!to_line) to_line.emplace(from, walk.line, farthest);
              const Ray ray = to_line->cast(std::atan2(gone.east_m, gone.north_m));
              if (!std::isnan(ray.along_m) && ray.distance_m <= d && ray.distance_m > walk.leaving_m)
                still *= 1 - walk.line_known;
            }
            sum += still * (numeric::normal_cdf(high) - numeric::normal_cdf(low));
            break;
          }
        }
        // a bent track is a little longer than d; the mark is not stepped over
        const double free = std::min(0.9 * clear, std::max(0.9 * std::abs(to_mark), least_step));
        d += std::max(free, least_step);
      }
    }
  }
  return std::clamp(sum / rule.tracks, 0.0, 1.0);
}

}  // namespace lodeway::reckoning
