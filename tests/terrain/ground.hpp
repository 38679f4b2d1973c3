#pragma once
/// Grounds that the tests of terrain share.
#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "lodeway/numeric/random.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain::test {

inline Elevation ground_of(int rows, int cols, std::initializer_list<float> z, double cell_m = 10) {
  Elevation out(Frame{1000, 2000, cell_m, rows, cols});
  std::copy(z.begin(), z.end(), out.cells().begin());
  return out;
}

/// Independent random heights: rough, full of pits. `steps` > 0 makes whole steps, so flats abound.
inline Elevation noise(int rows, int cols, std::uint64_t seed, int steps = 0, double voids = 0) {
  numeric::Random random(seed);
  Elevation out(Frame{0, 10.0 * rows, 10, rows, cols});
  for (auto& v : out.cells()) {
    const double u = random.uniform();
    v = static_cast<float>(steps > 0 ? std::floor(u * steps) : 100 * u);
    if (random.uniform() < voids) v = NAN;
  }
  return out;
}

/// Rolling ground from a few waves of random length and direction; smooth, with hills and hollows.
inline Elevation hills(int rows, int cols, std::uint64_t seed, double cell_m = 10) {
  numeric::Random random(seed);
  Elevation out(Frame{0, cell_m * rows, cell_m, rows, cols});
  for (int k = 0; k < 12; ++k) {
    const double size = 4 * std::pow(1.6, k % 6), turn = 6.2831853 * random.uniform();
    const double a = std::cos(turn) / size, b = std::sin(turn) / size,
                 phase = 6.28 * random.uniform();
    for (int r = 0; r < rows; ++r) {
      for (int c = 0; c < cols; ++c) {
        out[r, c] += static_cast<float>(0.25 * cell_m * size * std::sin(a * c + b * r + phase));
      }
    }
  }
  return out;
}

/// The ground seen in a mirror that swaps east and west.
template <class T>
Raster<T> mirrored(const Raster<T>& from) {
  Raster<T> out(from.frame());
  for (int r = 0; r < from.rows(); ++r) {
    std::reverse_copy(from.row(r).begin(), from.row(r).end(), out.row(r).begin());
  }
  return out;
}

/// The ground turned a quarter clockwise: what was north is east.
template <class T>
Raster<T> turned(const Raster<T>& from) {
  Frame f = from.frame();
  std::swap(f.rows, f.cols);
  Raster<T> out(f);
  for (int r = 0; r < from.rows(); ++r) {
    for (int c = 0; c < from.cols(); ++c) out[c, from.rows() - 1 - r] = from[r, c];
  }
  return out;
}

}  // namespace lodeway::terrain::test
