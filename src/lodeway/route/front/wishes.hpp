#pragma once
/// What a request asks for besides what the party may do, and how near to it is near enough.
#include <cstddef>

#include "lodeway/route/front/front.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::route {

struct Wishes {
  units::Speech language = {};         ///< words, and their units
  double declination_sigma_deg = 0.4;  ///< shared by all legs
  double min_certainty = 0.9;          ///< of each leg
  double most_minutes = no_limit;      ///< walking on a slow day, rests and stays not in it
  /// Per leg: of setting foot on ground that is barred to the party. *Practice*.
  double most_hazard = 0.05;
  std::size_t walkers = 2000;  ///< of the short rehearsal of each named way; 0: none
};

/// So little past a limit keeps it, for the model cannot tell; the paper's cautions count from the
/// limit itself. *Practice*.
inline constexpr double certainty_rounding = 0.005, hazard_rounding = 0.01;

/// What certainty may cost: seconds for a loss of 1, which is 12 minutes for 1 of 100. *Practice*.
inline constexpr double most_price_s = 72000;

}  // namespace lodeway::route
