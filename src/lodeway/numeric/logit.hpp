#pragma once
/// Chances on the scale on which they can be shifted.
#include <cmath>

namespace lodeway::numeric {

/// ln(p / (1 - p)), 0 < p < 1.
[[nodiscard]] inline double logit(double p) { return std::log(p / (1 - p)); }
[[nodiscard]] inline double from_logit(double x) { return 1 / (1 + std::exp(-x)); }

/// The chance whose odds are e^by times those of `p`. What is never or always so stays: p <= 0,
/// p >= 1, and by 0 give p to the last bit.
[[nodiscard]] inline double shifted_chance(double p, double by) {
  return p <= 0 || p >= 1 || by == 0 ? p : from_logit(logit(p) + by);
}

}  // namespace lodeway::numeric
