#include <algorithm>
#include <array>
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
    const double out = std::sqrt(u * u + v * v);
    if (out > 1.65) continue;  // the rim's noise stays under 0.18 * 1.75 * 1.07
    const double rim = 0.18 * fractal_noise(seed + 31, x / 700, y / 700, 3);
    const double inside = smooth_step(1.25, 0.8, out + rim);
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
    const double dx = x - 1000 * s.x_km, dy = y - 1000 * s.y_km, away_m2 = dx * dx + dy * dy;
    if (away_m2 >= 420.0 * 420.0) continue;
    hold = std::min(hold, 0.06 + smooth_step(120, 420, std::sqrt(away_m2)));
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

/// Height at (x, y) from shifted nodes: a weighted mean over the nodes within 1.8 spacings, all in
/// the five rows and columns from (top, left); a raster's rim may have fewer.
double weighted(const Nodes& from, double x, double y, int top, int left, int rows, int cols) {
  const double reach_m2 = 3.24 * from.spacing_m * from.spacing_m;
  double sum = 0, weights = 0;
  for (int r = top; r < top + rows; ++r) {
    const auto first = static_cast<std::size_t>(r) * static_cast<std::size_t>(from.cols) +
                       static_cast<std::size_t>(left);
    const double *fx = from.x.data() + first, *fy = from.y.data() + first,
                 *fh = from.h.data() + first;
    std::array<double, 5> weight, share;
    for (std::size_t i = 0; i < static_cast<std::size_t>(cols); ++i) {
      const double dx = fx[i] - x, dy = fy[i] - y;
      const double inside = 1 - (dx * dx + dy * dy) / reach_m2;
      // Beyond the reach this is 0, without a question whose answer cannot be foreseen.
      const double t = 0.5 * (inside + std::abs(inside));
      weight[i] = t * t * t;
      share[i] = weight[i] * fh[i];
    }
    for (std::size_t i = 0; i < static_cast<std::size_t>(cols); ++i) {
      sum += share[i];
      weights += weight[i];
    }
  }
  return sum / weights;
}

double resampled(const Nodes& from, double x, double y) {
  const double s = from.spacing_m;
  const int c = static_cast<int>(floor_of((x + margin_m) / s));
  const int r = static_cast<int>(floor_of((design::size_m + margin_m - y) / s));
  if (r >= 2 && c >= 2 && r + 2 < from.rows && c + 2 < from.cols)
    return weighted(from, x, y, r - 2, c - 2, 5, 5);  // sizes that the compiler sees
  const int top = std::max(0, r - 2), left = std::max(0, c - 2);
  return weighted(from, x, y, top, left, std::min(from.rows - 1, r + 2) - top + 1,
                  std::min(from.cols - 1, c + 2) - left + 1);
}

struct Erosion {
  int steps;
  double power;       ///< K times the whole time; metres of retreat per metre of sqrt(area)
  double uplift_m;    ///< over the whole time, on ridges
  double diffuse_m2;  ///< diffusivity times the whole time
};

/// Calls visit(k) for each node, rows side by side.
template <class Visit>
void for_each_node(numeric::Parallel& parallel, const Nodes& nodes, const Visit& visit) {
  for_each_row(parallel, nodes.rows, [&](int r) {
    const auto cols = static_cast<std::size_t>(nodes.cols),
               first = static_cast<std::size_t>(r) * cols;
    for (std::size_t k = first; k < first + cols; ++k) visit(k);
  });
}

/// What does not hang on heights: it is worked out beside what does.
struct Bedrock {
  std::vector<double> hardness;
  std::vector<double> free;  ///< 1 where the ground may rise, 0 where it is held level
};
Bedrock bedrock_of(const Nodes& nodes, std::uint64_t seed, numeric::Parallel& parallel) {
  Bedrock bedrock{std::vector<double>(nodes.size()), std::vector<double>(nodes.size())};
  for_each_node(parallel, nodes, [&](std::size_t k) {
    const double x = nodes.x[k], y = nodes.y[k];
    const auto level = level_ground(seed, x, y);
    const double rock = 1 + 0.5 * fractal_noise(seed + 41, x / 800, y / 800, 3);
    bedrock.hardness[k] = std::clamp(rock, 0.35, 1.8) * (1 - level.hold) * saddle_hold(x, y);
    bedrock.free[k] = 1 - level.inside;
  });
  return bedrock;
}

void erode(Nodes& nodes, const Erosion& e, const Bedrock& bedrock, numeric::Parallel& parallel) {
  const std::size_t n = nodes.size();
  const auto cols = static_cast<std::size_t>(nodes.cols);
  std::vector<double> uplift(n);
  for_each_node(parallel, nodes, [&](std::size_t k) {
    uplift[k] = smooth_step(180, 620, nodes.h[k]) * bedrock.free[k];
  });
  Router router(nodes, parallel);
  std::vector<double> next(n), wear(n);
  for (int step = 0; step < e.steps; ++step) {
    const Flow& flow = router.route(nodes.h, 0.002);
    for_each_node(parallel, nodes, [&](std::size_t k) {
      if (flow.receiver[k] < 0) return;
      wear[k] = e.power / e.steps * bedrock.hardness[k] * std::sqrt(flow.area_m2[k]) /
                router.to_receiver_m(k);
      nodes.h[k] += uplift[k] * e.uplift_m / e.steps;
    });
    for (const std::int32_t node : flow.order) {
      const auto k = static_cast<std::size_t>(node);
      if (flow.receiver[k] < 0) continue;
      const double h = nodes.h[k], f = wear[k];
      const double down = std::min(nodes.h[static_cast<std::size_t>(flow.receiver[k])], h);
      nodes.h[k] = (h + f * down) / (1 + f);
    }
    const double rate = e.diffuse_m2 / e.steps / (nodes.spacing_m * nodes.spacing_m);
    const auto& h = nodes.h;
    for_each_row(parallel, nodes.rows, [&](int r) {
      const std::size_t first = static_cast<std::size_t>(r) * cols, past = first + cols;
      std::copy_n(h.data() + first, cols, next.data() + first);
      if (r == 0 || r + 1 == nodes.rows) return;
      for (std::size_t k = first + 1; k + 1 < past; ++k)
        next[k] += rate * (h[k - 1] + h[k + 1] + h[k - cols] + h[k + cols] - 4 * h[k]);
    });
    nodes.h.swap(next);
  }
}

/// Unevenness for refined nodes, in shares of its size.
std::vector<double> unevenness(const Nodes& nodes, double wave_m, std::uint64_t seed,
                               numeric::Parallel& parallel) {
  std::vector<double> out(nodes.size());
  for_each_node(parallel, nodes, [&](std::size_t k) {
    out[k] = fractal_noise(seed, nodes.x[k] / wave_m, nodes.y[k] / wave_m, 3);
  });
  return out;
}

/// Heights from coarser ones, roughened where the ground is steep. `smooth(r, c, right, up)`: the
/// coarser ground's height at a node or, with `right` or `up` 1, half a wave from it.
template <class Smooth>
void refine(Nodes& to, double rough_m, double wave_m, const std::vector<double>& uneven,
            numeric::Parallel& parallel, const Smooth& smooth) {
  for_each_row(parallel, to.rows, [&](int r) {
    for (int c = 0; c < to.cols; ++c) {
      const auto k = static_cast<std::size_t>(r) * static_cast<std::size_t>(to.cols) +
                     static_cast<std::size_t>(c);
      const double h = smooth(r, c, 0, 0);
      const double steep = std::abs(smooth(r, c, 1, 0) - h) + std::abs(smooth(r, c, 0, 1) - h);
      const double size = rough_m * std::min(1.0, 0.12 + steep / (0.5 * wave_m));
      to.h[k] = h + size * uneven[k];
    }
  });
}

/// The first, coarse ground: the skeleton's heights, carved.
Nodes coarse_ground(std::uint64_t seed, numeric::Parallel& parallel) {
  const auto lines = skeleton(seed);
  Nodes coarse = lattice(40, 0.75, seed + 100);
  for_each_node(parallel, coarse, [&](std::size_t k) {
    const double x = coarse.x[k], y = coarse.y[k];
    const double wx = x + 130 * fractal_noise(seed + 21, x / 1100, y / 1100, 3);
    const double wy = y + 130 * fractal_noise(seed + 22, x / 1100, y / 1100, 3);
    const double h =
        skeleton_height(lines, wx, wy) + 24 * fractal_noise(seed + 23, x / 520, y / 520, 4);
    const auto level = level_ground(seed, x, y);
    coarse.h[k] = h + level.inside * (level.height_m - h);
  });
  erode(coarse, {40, 1.1, 75, 1500}, bedrock_of(coarse, seed, parallel), parallel);
  return coarse;
}

/// The cells of the land as nodes, still without heights.
Nodes cells_of_land() {
  const auto frame = design::frame();
  Nodes fine{frame.rows, frame.cols, frame.cell_m, {}, {}, {}};
  fine.x.reserve(frame.size()), fine.y.reserve(frame.size());
  for (int r = 0; r < fine.rows; ++r)
    for (int c = 0; c < fine.cols; ++c) {
      fine.x.push_back(design::cell_m * (c + 0.5));
      fine.y.push_back(design::size_m - design::cell_m * (r + 0.5));
    }
  fine.h.assign(frame.size(), 0.0);
  return fine;
}

}  // namespace

Nodes nodes_of(const terrain::Raster<double>& heights) {
  return {heights.rows(),
          heights.cols(),
          heights.frame().cell_m,
          {},
          {},
          {heights.cells().begin(), heights.cells().end()}};
}

terrain::Raster<double> eroded_land(std::uint64_t seed, numeric::Parallel& parallel) {
  constexpr double middle_wave_m = 150, fine_wave_m = 60;
  Nodes coarse, middle, fine;
  Bedrock middle_rock;
  std::vector<double> middle_uneven, fine_uneven;
  parallel.for_each_block(2, [&](std::size_t block) {
    if (block == 0) {
      coarse = coarse_ground(seed, parallel);
      return;
    }
    numeric::Serial alone;  // the other block is the longer way
    middle = lattice(20, 0.75, seed + 200);
    middle_rock = bedrock_of(middle, seed, alone);
    middle_uneven = unevenness(middle, middle_wave_m, seed + 51, alone);
    fine = cells_of_land();
    fine_uneven = unevenness(fine, fine_wave_m, seed + 52, alone);
  });

  refine(middle, 9, middle_wave_m, middle_uneven, parallel, [&](int r, int c, int right, int up) {
    const auto k = static_cast<std::size_t>(r * middle.cols + c);
    return resampled(coarse, middle.x[k] + right * (middle_wave_m / 2),
                     middle.y[k] + up * (middle_wave_m / 2));
  });
  erode(middle, {8, 0.22, 12, 260}, middle_rock, parallel);

  // Half a wave on from a cell's centre is another cell's centre, or lies as far beyond the rim.
  constexpr int half_wave = static_cast<int>(fine_wave_m / 2 / design::cell_m);
  const int wide = fine.cols + half_wave;
  std::vector<double> smooth(static_cast<std::size_t>((fine.rows + half_wave) * wide));
  for_each_row(parallel, fine.rows + half_wave, [&](int r) {
    for (int c = 0; c < wide; ++c)
      smooth[static_cast<std::size_t>(r * wide + c)] =
          resampled(middle, design::cell_m * (c + 0.5),
                    design::size_m - design::cell_m * (r - half_wave + 0.5));
  });
  refine(fine, 2.0, fine_wave_m, fine_uneven, parallel, [&](int r, int c, int right, int up) {
    return smooth[static_cast<std::size_t>((r + half_wave * (1 - up)) * wide + c +
                                           half_wave * right)];
  });
  terrain::Raster<double> land(design::frame());
  std::ranges::copy(fine.h, land.cells().begin());
  return land;
}

}  // namespace lodeway::fells
