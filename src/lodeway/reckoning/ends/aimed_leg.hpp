#pragma once
/// Aiming off at a line of the map: which side, how far, and what it is worth.
#include <cmath>
#include <functional>
#include <span>
#include <vector>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/ends/aiming_off.hpp"
#include "lodeway/reckoning/growth/growth.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"

namespace lodeway::reckoning {

/// A bearing leg to a line, then along the line to a place on it.
struct LineEnd {
  earth::GridPoint from;
  std::span<const earth::GridPoint> line;
  double target_along_m = 0;      ///< of the place, on the line
  double window_m = 0;            ///< the place is seen from so far along the line
  LegGrowth growth;               ///< of the straight leg to the place
  double line_beyond_sigmas = 3;  ///< Habits::line_beyond_sigmas
  double least_offset_m = 0;      ///< below it no aiming off is said
  double leaving_m = 0;  ///< a leg that starts on the line does not meet it so near its start
  /// May one aim there? Asked only for aims that would save time; empty: everywhere.
  std::function<bool(earth::GridPoint aim)> allowed = {};
};

struct AimedLeg {
  double offset_m = 0;  ///< along the line, + towards its last point; 0: straight at the place
  earth::GridPoint aim;
  units::GridBearing bearing;
  double length_m = 0;       ///< of the bearing part
  bool aim_is_left = false;  ///< of the straight way to the place
  /// Chance to meet the line, turn (or stand) right, and come to the place before turning round.
  double right_way = 0;
  double within = 0;         ///< of these: met within the window
  double wrong_way = 0, missed = 0;  ///< the three sum to 1
  double line_sigma_m = 0;  ///< spread along the line, first order
  double beyond_m = 0;      ///< gives up so far past the aim
  double follows_m = 0;     ///< so far along the line it has met, then it turns round
  double minutes = 0;       ///< expected, bearing part and along the line, searches in it
  double saving_min = 0;    ///< against walking straight at the place
};

/// One leg's aims at one line: the rays are cast once. Chances and minutes of what is answered are
/// taken over the starts too, where the party is not sure of its own (beyond 7.5 m each way): rays
/// from nine places along the longer axis of that error, five across where it is over 12 m.
class LineAimer {
 public:
  /// Refers to its arguments, which must outlive it. Offsets up to `widest_offset_m` and to 4 line
  /// sigmas can be asked for.
  LineAimer(const LineEnd& end, const AimCosts& costs, double widest_offset_m = 0);
  /// Tries both sides, up to 4 line sigmas and the line's own ends; smallest expected time. For a
  /// line that is not met at all going straight, all is missed.
  [[nodiscard]] AimedLeg best() const;
  /// With an offset that is given, and a window of its own about the place; who met the line follows
  /// it `follows_m` (negative: as far as it would).
  [[nodiscard]] AimedLeg aimed(double offset_m, double window_m, double follows_m = -1) const;

 private:
  /// Who met the line would follow it so far.
  [[nodiscard]] double search_m(double offset) const;
  /// What of an aim does not depend on where the line is met.
  [[nodiscard]] AimedLeg towards(double offset) const;
  /// Its chances and minutes, from those.
  void weigh(AimedLeg& leg, const Meeting& met) const;
  /// All starts as one, with its error in the rays': good enough to choose by.
  [[nodiscard]] Meeting meet(const AimedLeg& leg, double window) const;
  [[nodiscard]] Meeting meet_over_starts(const AimedLeg& leg, double window) const;
  [[nodiscard]] double minutes(double offset) const;
  [[nodiscard]] double bearing_to(earth::GridPoint p) const;
  /// Its direction as the fan counts: radians, growing through the fan.
  [[nodiscard]] double in_the_fan(const AimedLeg& leg) const;

  const LineEnd& end_;
  const AimCosts& costs_;
  mapdata::Measured line_;
  earth::GridPoint target_;
  double lie_;  ///< direction of the line there
  double straight_, straight_length_, cross_sigma_, along_sigma_, line_sigma_, reach_;
  std::vector<LinePiece> pieces_;  ///< in reach of any start
  Fan fan_;
  std::vector<double> turns_;  ///< of its rays, in sigmas
};

}  // namespace lodeway::reckoning
