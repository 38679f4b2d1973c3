#pragma once
/// Seeded gradient noise that has the same bits on every machine: integer hashing and the four
/// basic operations only, no call into the mathematical library.
/// Source: Perlin 2002, Improving noise, ACM Trans. Graph. 21(3):681-682 (the quintic fade).
#include <cstdint>

namespace lodeway::fells {

/// A well mixed 64 bit value for a lattice point; the finaliser of splitmix64 (Steele et al. 2014).
[[nodiscard]] std::uint64_t lattice_hash(std::uint64_t seed, std::int64_t x, std::int64_t y);
/// The same as a figure in [0, 1).
[[nodiscard]] double lattice_unit(std::uint64_t seed, std::int64_t x, std::int64_t y);
/// The largest whole number that is not above x, whose size is under 2^62; no call, unlike
/// std::floor.
[[nodiscard]] constexpr std::int64_t floor_of(double x) {
  const auto towards_zero = static_cast<std::int64_t>(x);
  return towards_zero - (static_cast<double>(towards_zero) > x ? 1 : 0);
}
/// Gradient noise, about -1 to 1, zero mean, zero on lattice points; x and y in lattice steps.
[[nodiscard]] double gradient_noise(std::uint64_t seed, double x, double y);
/// Sum of `octaves` noises, each with twice the frequency and half the size of the one before.
[[nodiscard]] double fractal_noise(std::uint64_t seed, double x, double y, int octaves);
/// 0 at and below a, 1 at and above b, the cubic 3t^2 - 2t^3 between.
[[nodiscard]] double smooth_step(double a, double b, double x);

}  // namespace lodeway::fells
