#pragma once
/// One leg on a bearing from a sure place: where it may end, and whether it ends where it should.
#include <optional>

#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/reckoning/ends/aiming_off.hpp"

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
  double certainty = 0;  ///< point: seen before giving up; line: met, and on the side aimed to
  // a point
  double pass_within_probability = 0;  ///< P(|cross| < seen_from), however far the party goes on
  double gives_up_beyond_m = 0;        ///< past the reckoned end; of a line: past the aim
  // a line
  double line_sigma_m = 0, aim_off_m = 0, saving_min = 0;
  double wrong_side_probability = 0;  ///< met beyond the mark
  double never_met_probability = 0;   ///< given up before the line; with the other two it is 1
  bool catches = true;  ///< false: the line is no catching feature for this leg, and the rest of
                        ///< this block means nothing
};

/// Under this angle a party walks beside a line rather than at it, and its doubt lies along the
/// whole of it (common practice, no source).
inline constexpr double least_crossing_deg = 10;

/// cross = sqrt(L^2 (sb^2 + compass^2) + L s se^2), along = sqrt(L^2 (sp^2 + stride^2) + L nu^2),
/// then `sees_before_giving_up` or `best_aim`. A line goes on straight both ways; the aim is to its
/// nearer side (at 90 degrees neither is). Who walks obliquely at a line comes to it later by cross
/// error too, so the party goes on past its aim by Habits::line_beyond_sigmas of
/// sqrt(along^2 + (cross cot)^2), with the angle at the aim, before it gives up. Its chances: Fan,
/// accuracy 1e-3. A line met at less than `least_crossing_deg`, or missed by half of the parties and
/// more, is no catching feature: `catches` is false. Exactly one of the two targets is set. Faults: bad_input.
[[nodiscard]] Result<SingleLegAnswer> reckon_leg(const SingleLeg& leg);

/// The longest leg, whole metres up to 20000, whose certainty is not below `certainty`; 0 when none
/// is. For a point: a longer leg is never surer.
[[nodiscard]] Result<double> longest_leg_m(SingleLeg leg, double certainty);

}  // namespace lodeway::reckoning
