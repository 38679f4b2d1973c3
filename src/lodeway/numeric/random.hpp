#pragma once
/// Seeded random streams that are the same on every machine: a fixed generator, our own deviates.
#include <array>
#include <cstdint>

namespace lodeway::numeric {

/// xoshiro256++ (Blackman & Vigna 2021, ACM TOMS 47(4), art. 36), seeded by splitmix64.
/// Streams of different (seed, stream) pairs are independent for our purpose; copying copies the
/// state.
class Random {
 public:
  explicit Random(std::uint64_t seed, std::uint64_t stream = 0);
  /// The generator's own four words, as its authors' code is started; not all may be 0.
  explicit Random(const std::array<std::uint64_t, 4>& state) : state_(state) {}
  [[nodiscard]] std::uint64_t bits();
  /// Uniform in the OPEN interval (0, 1), 52 bits: its ends are never drawn.
  [[nodiscard]] double uniform();
  /// Standard normal deviate by inversion (numeric::normal_quantile): one draw, one deviate.
  [[nodiscard]] double normal();

 private:
  std::array<std::uint64_t, 4> state_;
};

}  // namespace lodeway::numeric
