#include "lodeway/fells/noise.hpp"

#include <algorithm>
#include <array>

namespace lodeway::fells {

std::uint64_t lattice_hash(std::uint64_t seed, std::int64_t x, std::int64_t y) {
  const auto ux = static_cast<std::uint64_t>(x), uy = static_cast<std::uint64_t>(y);
  std::uint64_t z = seed + ux * 0x9E3779B97F4A7C15ULL + uy * 0xC2B2AE3D27D4EB4FULL;
  for (int pass = 0; pass < 2; ++pass) {
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    z ^= z >> 31;
  }
  return z;
}

double lattice_unit(std::uint64_t seed, std::int64_t x, std::int64_t y) {
  return static_cast<double>(lattice_hash(seed, x, y) >> 11) * 0x1p-53;
}

double gradient_noise(std::uint64_t seed, double x, double y) {
  // Eight directions of length one, and eight between them: enough that no direction shows.
  constexpr double c1 = 0.92387953251128674, s1 = 0.38268343236508977, d = 0.70710678118654752;
  static constexpr std::array<std::array<double, 2>, 16> directions{{{1, 0},
                                                                     {c1, s1},
                                                                     {d, d},
                                                                     {s1, c1},
                                                                     {0, 1},
                                                                     {-s1, c1},
                                                                     {-d, d},
                                                                     {-c1, s1},
                                                                     {-1, 0},
                                                                     {-c1, -s1},
                                                                     {-d, -d},
                                                                     {-s1, -c1},
                                                                     {0, -1},
                                                                     {s1, -c1},
                                                                     {d, -d},
                                                                     {c1, -s1}}};
  const std::int64_t ix = floor_of(x), iy = floor_of(y);
  const double u = x - static_cast<double>(ix), v = y - static_cast<double>(iy);
  const auto corner = [&](int dx, int dy) {
    const auto& g = directions[lattice_hash(seed, ix + dx, iy + dy) & 15U];
    return g[0] * (u - dx) + g[1] * (v - dy);
  };
  const auto fade = [](double t) { return t * t * t * (t * (t * 6 - 15) + 10); };
  const double a = fade(u), b = fade(v);
  const double south = corner(0, 0) + a * (corner(1, 0) - corner(0, 0));
  const double north = corner(0, 1) + a * (corner(1, 1) - corner(0, 1));
  return 1.5 * (south + b * (north - south));
}

double fractal_noise(std::uint64_t seed, double x, double y, int octaves) {
  double sum = 0, size = 1, scale = 1;
  for (int k = 0; k < octaves; ++k) {
    sum += size * gradient_noise(seed + static_cast<std::uint64_t>(k) * 7919, x * scale, y * scale);
    size *= 0.5;
    scale *= 2.0;
  }
  return sum;
}

double smooth_step(double a, double b, double x) {
  const double t = std::clamp((x - a) / (b - a), 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

}  // namespace lodeway::fells
