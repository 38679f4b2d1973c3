#pragma once
/// What a request asks for besides what the party may do.
#include <cstddef>

#include "lodeway/route/front/front.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::route {

struct Wishes {
  units::Speech language = {};         ///< words, and their units
  double declination_sigma_deg = 0.4;  ///< shared by all legs
  double min_certainty = 0.9;          ///< of each leg
  double most_minutes = no_limit;      ///< walking on a slow day, rests and stays not in it
  /// Share of parties that may set foot on ground to keep off, on the whole way and so on each leg.
  /// *Practice*.
  double most_hazard = 0.05;
  /// Where no way keeps that: how much more it counts in the search than losing the way.
  double keep_off_weight = 0;
  std::size_t walkers = 2000;  ///< of the short rehearsal of each named way; 0: none
};

}  // namespace lodeway::route
