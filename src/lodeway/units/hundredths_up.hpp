#pragma once
/// One figure for how many come to harm, on screen, paper and in answers for programs.
#include <cmath>

namespace lodeway::units {

/// A chance as so many of 100, whole and never rounded down: 0.0004 is 1, 0.811 is 82. What is a
/// whole hundredth stays one, though the nearest double lies above it: 0.29 is 29.
[[nodiscard]] inline int hundredths_up(double chance) {
  return static_cast<int>(std::ceil(100 * chance - 1e-9));
}

}  // namespace lodeway::units
