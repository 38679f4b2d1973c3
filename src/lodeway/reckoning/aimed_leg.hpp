#pragma once
/// Aiming off at a line of the map: which side, how far, and what it is worth.
#include <functional>

#include "lodeway/reckoning/aiming_off.hpp"
#include "lodeway/reckoning/line_target.hpp"

namespace lodeway::reckoning {

/// A bearing leg to a line, then along the line to a place on it.
struct LineEnd {
  earth::GridPoint from;
  std::span<const earth::GridPoint> line;
  double target_along_m = 0;  ///< of the place, on the line
  double window_m = 0;        ///< the place is seen from so far along the line
  double cross_sigma_m = 0, along_sigma_m = 0;  ///< of the straight leg to the place, at its end
  double line_beyond_sigmas = 3;                ///< Habits::line_beyond_sigmas
  double least_offset_m = 0;                    ///< below it no aiming off is said
  /// May one aim there? Asked only for aims that would save time; empty: everywhere.
  std::function<bool(earth::GridPoint aim)> allowed = {};
};

struct AimedLeg {
  double offset_m = 0;     ///< along the line, + towards its last point; 0: straight at the place
  earth::GridPoint aim;
  double bearing = 0;      ///< grid, radians
  double length_m = 0;     ///< of the bearing part
  bool aim_is_left = false;  ///< of the straight way to the place
  double right_way = 0;    ///< chance to meet the line and turn (or stand) right
  double within = 0;       ///< of these: met within the window
  double wrong_way = 0, missed = 0;
  double line_sigma_m = 0;  ///< spread along the line, first order
  double beyond_m = 0;      ///< gives up so far past the aim
  double minutes = 0;       ///< expected, bearing part and along the line, searches in it
  double saving_min = 0;    ///< against walking straight at the place
};

/// Tries both sides, up to 4 line sigmas and the line's own ends; smallest expected time. For a line that is
/// not met at all going straight, all is missed.
[[nodiscard]] AimedLeg best_aimed_leg(const LineEnd& end, const AimCosts& costs);
/// The same for an offset that is given.
[[nodiscard]] AimedLeg aimed_leg(const LineEnd& end, double offset_m, const AimCosts& costs);

}  // namespace lodeway::reckoning
