#pragma once
/// One leg on a bearing from a sure place: where it may end, and whether it ends where it should.
#include <optional>

#include "lodeway/reckoning/ends/aiming_off.hpp"
#include "lodeway/reckoning/defaults.hpp"

namespace lodeway::reckoning {

struct SingleLeg {
  double length_m = 0;
  Errors errors;
  std::optional<double> seen_from_m;         ///< the end is a point seen from there
  std::optional<double> crossing_angle_rad;  ///< or a straight line met at this angle, (0, pi/2]
  double speed_kmh = 4.0;                    ///< weighs walking against standing in doubt
  Habits habits;
};

struct SingleLegAnswer {
  double cross_sigma_m = 0, along_sigma_m = 0;
  double certainty = 0;  ///< point: seen before giving up; line: 1 - wrong side
  // a point
  double pass_within_probability = 0;  ///< P(|cross| < seen_from), however far the party goes on
  double gives_up_beyond_m = 0;        ///< past the reckoned end
  // a line
  double line_sigma_m = 0, aim_off_m = 0, wrong_side_probability = 0, saving_min = 0;
};

/// cross = sqrt(L^2 (sb^2 + compass^2) + L s se^2), along = sqrt(L^2 (sp^2 + stride^2) + L nu^2),
/// then `sees_before_giving_up` or `best_aim`. Exactly one of the two targets is set. Faults:
/// bad_input.
[[nodiscard]] Result<SingleLegAnswer> reckon_leg(const SingleLeg& leg);

/// The longest leg, whole metres up to 20000, whose certainty is not below `certainty`; 0 when none
/// is. For a point: a longer leg is never surer.
[[nodiscard]] Result<double> longest_leg_m(SingleLeg leg, double certainty);

}  // namespace lodeway::reckoning
