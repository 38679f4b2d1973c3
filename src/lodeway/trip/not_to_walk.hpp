#pragma once
/// Ways that nobody would walk: what is said before all else of them, and on each side of paper.
/// Method: docs/method/verdict.md
#include <string>
#include <vector>

#include "lodeway/trip/plan.hpp"

namespace lodeway::trip {

/// Outside the limit of ground to keep off, and more parties stray onto it than keep every leg.
/// There is no number in it: whatever the limits, of two parties one is rather in danger than there.
[[nodiscard]] bool not_to_walk(const Plan& plan);

/// "Not to be walked" for such a way, else "": the mark on each side.
[[nodiscard]] std::string not_to_walk_mark(const Plan& plan);

/// The verdict's headline; of such a way the mark.
[[nodiscard]] std::string headline_of(const Plan& plan);

/// The verdict's sentences; of such a way before them why, and what to try next.
[[nodiscard]] std::vector<std::string> sentences_of(const Plan& plan);

}  // namespace lodeway::trip
