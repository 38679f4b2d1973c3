#pragma once
/// A rough relief for timing: octaves of value noise down to single cells, so that pits are many.
#include <cmath>
#include <cstddef>
#include <vector>

#include "lodeway/numeric/random.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain::bench {

inline Elevation relief(int n, std::uint64_t seed = 1) {
  Elevation out(Frame{0, 10.0 * n, 10, n, n});
  numeric::Random random(seed);
  for (int size = 1024; size >= 2; size /= 2) {
    const int knots = n / size + 2;
    std::vector<double> lattice(static_cast<std::size_t>(knots) * static_cast<std::size_t>(knots));
    for (auto& v : lattice) v = 1.2 * std::pow(size, 0.9) * (random.uniform() - 0.5);
    const auto knot = [&](int r, int c) {
      return lattice[static_cast<std::size_t>(r) * static_cast<std::size_t>(knots) +
                     static_cast<std::size_t>(c)];
    };
    const auto smooth = [](double t) { return t * t * (3 - 2 * t); };
    for (int r = 0; r < n; ++r) {
      const int i = r / size;
      const double v = smooth(static_cast<double>(r % size) / size);
      for (int c = 0; c < n; ++c) {
        const int j = c / size;
        const double u = smooth(static_cast<double>(c % size) / size);
        out[r, c] += static_cast<float>((1 - v) * ((1 - u) * knot(i, j) + u * knot(i, j + 1)) +
                                        v * ((1 - u) * knot(i + 1, j) + u * knot(i + 1, j + 1)));
      }
    }
  }
  return out;
}

}  // namespace lodeway::terrain::bench
