#pragma once
/// Which of the routes that compete for a place is taken. Not for use outside route.
/// Method: docs/method/escape-routes.md
#include <vector>

#include "lodeway/reckoning/judge/escape.hpp"

namespace lodeway::route {

/// *Practice*, all. Of the routes that may be taken the surest within so many times the quickest;
/// a route that is found for the place has at most so many legs where there is another; one that
/// rises more metres above the place that is left gives way to one that does not, if that is kept
/// by at most so many fewer, of 1.
inline constexpr double times_quickest = 1.5;
inline constexpr std::size_t most_escape_legs = 4;
inline constexpr double most_rise_m = 30, rise_worth = 0.10;

/// One that competes, judged.
struct EscapeCandidate {
  reckoning::Escape route;
  bool on_the_card = false;  ///< its legs are the way's own: told already, however many
  double rise_m = 0;         ///< its highest place above the one that is left
  bool to_a_drop = false;    ///< who goes too far on one of its legs comes to a cliff or steep band
};

/// Does it pass every rule but that of time? Then none slower than `times_quickest` is taken beside
/// it. `most_hazard`: the share of parties that may set foot on ground to keep off, of 1.
[[nodiscard]] bool passes_all_rules(const EscapeCandidate& candidate, double most_hazard);

/// The one that is taken; needs one at least. Two that are alike in all that counts: the first.
[[nodiscard]] reckoning::Escape chosen_of(std::vector<EscapeCandidate> all, double most_hazard);

}  // namespace lodeway::route
