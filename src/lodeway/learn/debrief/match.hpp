#pragma once
/// Internal to debrief: which place of the plan each point of the track belongs to.
#include <vector>

#include "lodeway/learn/debrief/debrief.hpp"

namespace lodeway::learn::detail {

struct Matched {
  double along_m = 0;  ///< on the whole plan
  double away_m = 0;
};
/// One a point of the track. `plan`: all legs in one line.
[[nodiscard]] std::vector<Matched> match(const std::vector<GridPoint>& plan,
                                         const std::vector<WalkedPoint>& track, double step_m);
/// Points at least `step_m` apart; the first and last stay.
[[nodiscard]] std::vector<WalkedPoint> thinned(const std::vector<WalkedPoint>& track,
                                               double step_m);

}  // namespace lodeway::learn::detail
