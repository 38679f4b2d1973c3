#include <algorithm>
#include <cmath>
#include <limits>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/noise.hpp"
#include "lodeway/fells/relief.hpp"

namespace lodeway::fells {
namespace {

constexpr double margin_m = 640;  // so that the map's edge is not the water's base level

struct Segment {
  double ax, ay, ah, bx, by, bh;
};

/// The skeleton with the seed's own small shifts, in metres from the south-west corner.
std::vector<Segment> skeleton(std::uint64_t seed) {
  std::vector<Segment> out;
  const auto add = [&](const design::SkeletonLine& line) {
    const auto knot = [&](const design::Knot& k) {
      // The same knot on two lines shifts alike: the shift is hashed from its place.
      const auto kx = static_cast<std::int64_t>(std::floor(k.x_km * 100 + 0.5));
      const auto ky = static_cast<std::int64_t>(std::floor(k.y_km * 100 + 0.5));
      const auto shift = [&](std::uint64_t salt) {
        return lattice_unit(seed + salt, kx, ky) - 0.5;
      };
      return design::Knot{1000 * k.x_km + 70 * shift(11), 1000 * k.y_km + 70 * shift(12),
                          k.height_m * (1 + 0.02 * shift(13))};
    };
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
      const auto a = knot(line[i]), b = knot(line[i + 1]);
      out.push_back({a.x_km, a.y_km, a.height_m, b.x_km, b.y_km, b.height_m});
    }
  };
  for (const auto& v : design::valleys()) add(v);
  for (const auto& r : design::ridges()) add(r);
  return out;
}

/// Inverse-distance mean of the nearest points of all skeleton lines.
double skeleton_height(const std::vector<Segment>& lines, double x, double y) {
  double sum = 0, weights = 0;
  for (const auto& s : lines) {
    const double dx = s.bx - s.ax, dy = s.by - s.ay;
    const double t =
        std::clamp(((x - s.ax) * dx + (y - s.ay) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
    const double ex = x - s.ax - t * dx, ey = y - s.ay - t * dy;
    const double near = ex * ex + ey * ey + 3600;  // 60 m: rounds crests and floors
    const double w = 1 / (near * std::sqrt(near));
    sum += w * (s.ah + t * (s.bh - s.ah));
    weights += w;
  }
  return sum / weights;
}

struct Level {
  double inside = 0;    ///< 0 outside held-level ground, 1 well inside
  double height_m = 0;  ///< what it is held at
  double hold = 0;
};
Level level_ground(std::uint64_t seed, double x, double y) {
  for (const auto& f : design::flats()) {
    const double u = (x / 1000 - f.x_km) / f.half_x_km, v = (y / 1000 - f.y_km) / f.half_y_km;
    const double rim = 0.18 * fractal_noise(seed + 31, x / 700, y / 700, 3);
    const double inside = smooth_step(1.25, 0.8, std::sqrt(u * u + v * v) + rim);
    if (inside <= 0) continue;
    const double height = f.height_m - f.tilt_m_km * (x / 1000 - f.x_km) +
                          15 * fractal_noise(seed + 32, x / 1000, y / 1000, 5);
    return {inside, height, f.hold * inside};
  }
  return {};
}

/// 1 far from the drawn saddles, small on them: becks would cut through a hause from its steep
/// side.
double saddle_hold(double x, double y) {
  double hold = 1;
  for (const auto& s : design::saddles()) {
    const double dx = x - 1000 * s.x_km, dy = y - 1000 * s.y_km;
    hold = std::min(hold, 0.06 + smooth_step(120, 420, std::sqrt(dx * dx + dy * dy)));
  }
  return std::min(hold, 1.0);
}

Nodes lattice(double spacing, double shift, std::uint64_t seed) {
  const int n = static_cast<int>((design::size_m + 2 * margin_m) / spacing);
  Nodes nodes{n, n, spacing, {}, {}, {}};
  const std::size_t size = static_cast<std::size_t>(n) * static_cast<std::size_t>(n);
  nodes.x.reserve(size);
  nodes.y.reserve(size);
  for (int r = 0; r < n; ++r)
    for (int c = 0; c < n; ++c) {
      nodes.x.push_back(-margin_m +
                        spacing * (c + 0.5 + shift * (lattice_unit(seed + 1, c, r) - 0.5)));
      nodes.y.push_back(design::size_m + margin_m -
                        spacing * (r + 0.5 + shift * (lattice_unit(seed + 2, c, r) - 0.5)));
    }
  nodes.h.assign(size, 0.0);
  return nodes;
}

/// Height at (x, y) from shifted nodes: a weighted mean over the nodes within 1.8 spacings.
double resampled(const Nodes& from, double x, double y) {
  const double s = from.spacing_m;
  const int c0 = static_cast<int>(std::floor((x + margin_m) / s));
  const int r0 = static_cast<int>(std::floor((design::size_m + margin_m - y) / s));
  const double reach_m2 = 3.24 * s * s;
  double sum = 0, weights = 0;
  for (int r = std::max(0, r0 - 2); r <= std::min(from.rows - 1, r0 + 2); ++r)
    for (int c = std::max(0, c0 - 2); c <= std::min(from.cols - 1, c0 + 2); ++c) {
      const auto k = static_cast<std::size_t>(r) * static_cast<std::size_t>(from.cols) +
                     static_cast<std::size_t>(c);
      const double dx = from.x[k] - x, dy = from.y[k] - y;
      const double far_m2 = dx * dx + dy * dy;
      if (far_m2 >= reach_m2) continue;
      const double t = 1 - far_m2 / reach_m2;
      const double w = t * t * t;
      sum += w * from.h[k];
      weights += w;
    }
  return sum / weights;
}

struct Erosion {
  int steps;
  double power;       ///< K times the whole time; metres of retreat per metre of sqrt(area)
  double uplift_m;    ///< over the whole time, on ridges
  double diffuse_m2;  ///< diffusivity times the whole time
};

void erode(Nodes& nodes, const Erosion& e, std::uint64_t seed) {
  const std::size_t n = nodes.size();
  std::vector<double> hardness(n), uplift(n);
  for (std::size_t k = 0; k < n; ++k) {
    const auto level = level_ground(seed, nodes.x[k], nodes.y[k]);
    const double rock = 1 + 0.5 * fractal_noise(seed + 41, nodes.x[k] / 800, nodes.y[k] / 800, 3);
    hardness[k] =
        std::clamp(rock, 0.35, 1.8) * (1 - level.hold) * saddle_hold(nodes.x[k], nodes.y[k]);
    uplift[k] = smooth_step(180, 620, nodes.h[k]) * (1 - level.inside);
  }
  std::vector<double> next;
  for (int step = 0; step < e.steps; ++step) {
    const Flow flow = route_water(nodes, 0.002);
    for (const std::int32_t node : flow.order) {
      const auto k = static_cast<std::size_t>(node);
      if (flow.receiver[k] < 0) continue;
      const auto j = static_cast<std::size_t>(flow.receiver[k]);
      const double dx = nodes.x[j] - nodes.x[k], dy = nodes.y[j] - nodes.y[k];
      const double f = e.power / e.steps * hardness[k] * std::sqrt(flow.area_m2[k]) /
                       std::sqrt(dx * dx + dy * dy);
      const double h = nodes.h[k] + uplift[k] * e.uplift_m / e.steps;
      const double down = std::min(nodes.h[j], h);
      nodes.h[k] = (h + f * down) / (1 + f);
    }
    next = nodes.h;
    const double rate = e.diffuse_m2 / e.steps / (nodes.spacing_m * nodes.spacing_m);
    const auto cols = static_cast<std::size_t>(nodes.cols);
    for (int r = 1; r + 1 < nodes.rows; ++r)
      for (int c = 1; c + 1 < nodes.cols; ++c) {
        const std::size_t k = static_cast<std::size_t>(r) * cols + static_cast<std::size_t>(c);
        next[k] += rate * (nodes.h[k - 1] + nodes.h[k + 1] + nodes.h[k - cols] + nodes.h[k + cols] -
                           4 * nodes.h[k]);
      }
    nodes.h.swap(next);
  }
}

void refine(const Nodes& from, Nodes& to, double rough_m, double wave_m, std::uint64_t seed) {
  for (std::size_t k = 0; k < to.size(); ++k) {
    const double x = to.x[k], y = to.y[k];
    const double h = resampled(from, x, y);
    const double steep = std::abs(resampled(from, x + wave_m / 2, y) - h) +
                         std::abs(resampled(from, x, y + wave_m / 2) - h);
    const double size = rough_m * std::min(1.0, 0.12 + steep / (0.5 * wave_m));
    to.h[k] = h + size * fractal_noise(seed, x / wave_m, y / wave_m, 3);
  }
}

}  // namespace

Nodes nodes_of(const terrain::Raster<double>& heights) {
  Nodes nodes{heights.rows(), heights.cols(), heights.frame().cell_m, {}, {}, {}};
  for (int r = 0; r < nodes.rows; ++r)
    for (int c = 0; c < nodes.cols; ++c) {
      nodes.x.push_back(nodes.spacing_m * c);
      nodes.y.push_back(-nodes.spacing_m * r);
    }
  nodes.h.assign(heights.cells().begin(), heights.cells().end());
  return nodes;
}

terrain::Raster<double> eroded_land(std::uint64_t seed) {
  const auto lines = skeleton(seed);
  Nodes coarse = lattice(40, 0.75, seed + 100);
  for (std::size_t k = 0; k < coarse.size(); ++k) {
    const double x = coarse.x[k], y = coarse.y[k];
    const double wx = x + 130 * fractal_noise(seed + 21, x / 1100, y / 1100, 3);
    const double wy = y + 130 * fractal_noise(seed + 22, x / 1100, y / 1100, 3);
    const double h =
        skeleton_height(lines, wx, wy) + 24 * fractal_noise(seed + 23, x / 520, y / 520, 4);
    const auto level = level_ground(seed, x, y);
    coarse.h[k] = h + level.inside * (level.height_m - h);
  }
  erode(coarse, {40, 1.1, 75, 1500}, seed);

  Nodes middle = lattice(20, 0.75, seed + 200);
  refine(coarse, middle, 9, 150, seed + 51);
  erode(middle, {8, 0.22, 12, 260}, seed);

  terrain::Raster<double> land(design::frame());
  Nodes fine{land.rows(), land.cols(), design::cell_m, {}, {}, {}};
  for (int r = 0; r < fine.rows; ++r)
    for (int c = 0; c < fine.cols; ++c) {
      fine.x.push_back(design::cell_m * (c + 0.5));
      fine.y.push_back(design::size_m - design::cell_m * (r + 0.5));
    }
  fine.h.assign(land.frame().size(), 0.0);
  refine(middle, fine, 2.0, 60, seed + 52);
  std::copy(fine.h.begin(), fine.h.end(), land.cells().begin());
  return land;
}

}  // namespace lodeway::fells
