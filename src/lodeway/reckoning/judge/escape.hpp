#pragma once
/// From a place on a leg to safe ground, judged.
#include <string>
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"

namespace lodeway::reckoning {

/// Where on a leg a party gives up its way.
enum class LeavesAt : unsigned char { start, middle, end };

/// Legs like any other, each judged as the trip is and in cloud: what is worse of the two counts.
struct Escape {
  LeavesAt from = LeavesAt::start;
  std::string to;               ///< what the safe ground is called
  std::vector<JudgedLeg> legs;  ///< none: the party stands on safe ground
  double minutes = 0, minutes_slow = 0;
  double certainty = 1;           ///< product of the legs'
  double hazard_probability = 0;  ///< of setting foot on forbidden ground, on any leg
  double back_minutes = 0;        ///< back the way that they came; 0: on safe ground already
  bool back = false;              ///< the way that they came, turned round
  bool snow_slope = false;        ///< in snow: through 30 to 45 degrees
};

}  // namespace lodeway::reckoning
