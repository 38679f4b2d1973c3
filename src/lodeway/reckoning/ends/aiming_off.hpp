#pragma once
/// Aiming off at a straight line: how far to one side, so that the turn at the line is known.
/// The general form for a real line: line_target.hpp.
#include "lodeway/reckoning/defaults.hpp"

namespace lodeway::reckoning {

/// What time costs there, minutes for each metre and minutes.
struct AimCosts {
  double bearing_min_per_m = 0.015;  ///< 4 km/h
  double line_min_per_m = 0.015;
  double doubt_min = 10;        ///< after a search the wrong way: Habits::doubt_min
  double wrong_way_sigmas = 2;  ///< Habits::wrong_way_sigmas
};

/// Expected minutes beyond the straight leg for one offset: the longer leg, then the way back along
/// the line, or the search the wrong way and back. With X = offset + N(0, line_sigma), X > 0 on the
/// right side:
///   E(X; X>0) way + P(X<0) (doubt + 2 (offset + k line_sigma) way) + E(|X|; X<0) way + longer leg.
[[nodiscard]] double aimed_minutes(double length_m, double crossing_angle, double line_sigma_m,
                                   double offset_m, const AimCosts& costs);

struct Aim {
  double offset_m = 0;
  double wrong_side_probability = 0;  ///< Phi(-offset / line_sigma)
  double minutes = 0;                 ///< expected, beyond the straight leg
  double saving_min = 0;              ///< against aiming straight at the target
};
/// The offset that makes the expected time least, 0 to 4 line sigmas, found within 0.001 sigma.
/// `crossing_angle`: radians between leg and line, (0, pi/2]; the aim is to the nearer side of the
/// line.
[[nodiscard]] Aim best_aim(double length_m, double crossing_angle, double line_sigma_m,
                           const AimCosts& costs);

/// Spread along a straight line met at an angle, from the cross-track sigma.
[[nodiscard]] double line_sigma(double cross_sigma_m, double crossing_angle);

}  // namespace lodeway::reckoning
