#pragma once
/// Which figure of a leg's certainty is said.
#include <algorithm>

#include "lodeway/reckoning/judge/judged.hpp"

namespace lodeway::trip {

/// The low end of what a third off in the table of chances gives, where it is known: paper, screen
/// and verdict say and use the same. Of 1.
[[nodiscard]] inline double kept_told(const reckoning::Judged& judged) {
  return judged.band ? std::min(judged.band->low, judged.certainty) : judged.certainty;
}

}  // namespace lodeway::trip
