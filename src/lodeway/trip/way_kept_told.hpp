#pragma once
/// Which figure of a whole way's certainty is said.
#include <algorithm>

#include "lodeway/walking/walked_days.hpp"

namespace lodeway::trip {

/// Every leg at the first try: what is worked out, or the share of the parties that walked it and
/// were never put back, whichever is lower; paper, screen and command say the same. Of 1.
[[nodiscard]] inline double way_kept_told(double worked_out, const walking::WalkedDays& days) {
  if (days.parties == 0) return worked_out;
  return std::min(worked_out,
                  static_cast<double>(days.kept) / static_cast<double>(days.parties));
}

}  // namespace lodeway::trip
