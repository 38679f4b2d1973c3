#pragma once
/// Where the count of a party on a line runs from: not every thing that the card has ticked off is
/// noticed. Method: docs/method/ends-of-legs.md
#include <vector>

#include "lodeway/reckoning/judge/judge.hpp"

namespace lodeway::reckoning {

/// A thing ticked off on a line, or its start: so many grid metres before the end, and the chance
/// that nothing after it was noticed.
struct CountedFrom {
  double since_m = 0, chance = 1;
};

/// Of a leg along a line, `length_m` by the grid, `at_m` from its start (negative: at its end): from
/// the last thing on, the start of the line last; the chances sum to 1. A thing is noticed by `notice` of its kind in the party's table of
/// chances, moved by `shift` in logit, times the attention of its skill (*practice*).
[[nodiscard]] std::vector<CountedFrom> counted_from(const Judge& judge, const walking::Leg& leg,
                                                    double length_m, double shift = 0,
                                                    double at_m = -1);

}  // namespace lodeway::reckoning
