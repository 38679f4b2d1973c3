#pragma once
/// Many walkers on one bearing at once: the inner loop of the rehearsal, on whatever vector unit
/// the machine has. The same bytes on every one of them: no fused multiply-add, own polynomials,
/// one stream a walker.
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::reckoning {

/// What all walkers of one walk share.
struct WalkPlan {
  int steps = 0;
  float step_m = 0;          ///< counted length of a step of the computation
  int hold = 1;              ///< steps for which one sighting's error is kept
  float sighting_sigma = 0;  ///< radians; errors beyond 1.5 radians are cut there
  float noise_m = 0;  ///< one sigma of a sighting's length error, metres: nu * sqrt(hold * step_m)
  std::span<const float>
      pace_s_per_m;  ///< by slope, `pace_entries` values, from `pace_slope(0)` on
};
inline constexpr int pace_entries = 301;
[[nodiscard]] constexpr double pace_slope(int entry) { return 0.01 * (entry - 150); }

/// The walkers, one array a figure. Places in cells: column and row, 0 at the centre of cell [0,
/// 0].
struct Walkers {
  explicit Walkers(
      std::size_t count);  ///< arrays are padded to whole vectors; the padding walks too
  std::size_t count, padded;
  std::vector<float> col, row;
  std::vector<float> east, north;    ///< sine and cosine of each one's bearing
  std::vector<float> scale;          ///< true metres for one counted
  std::vector<float> seconds;        ///< of walking, added to
  std::vector<std::uint32_t> state;  ///< four words of xoshiro128++ a walker, word by word
  /// Starts the stream of the walker in place i from its own seed and number, as numeric::Random
  /// does.
  void seed(std::size_t i, std::uint64_t seed, std::uint64_t walker);
};

/// Where each walker was after each step: [step * padded + walker], steps + 1 rows.
struct Trace {
  std::vector<float> col, row, seconds;
};

/// Walks all of them; heights bilinear, outside or void: level. Fills `trace` when given.
/// Accuracy: bearings 3e-7, normal deviates 2e-6 up to 4 sigma, places 1e-3 of a cell in 100 steps.
/// Source: xoshiro128++ (Blackman & Vigna 2021), Box & Muller 1958; polynomials minimax in single
/// precision.
void walk(const terrain::Elevation& heights, const WalkPlan& plan, Walkers& walkers, Trace* trace);

/// The same in plain C++, library sine and double precision: what the vector code is measured
/// against.
void walk_plainly(const terrain::Elevation& heights, const WalkPlan& plan, Walkers& walkers,
                  Trace* trace);

/// The vector unit in use: "AVX2", "SSE4", ...
[[nodiscard]] std::string walk_unit();

}  // namespace lodeway::reckoning
