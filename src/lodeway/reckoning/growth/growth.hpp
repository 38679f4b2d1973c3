#pragma once
/// How the error of one straight leg grows with the distance walked on it, seen from its bearing.
/// Source: docs/method/dead-reckoning.md
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::reckoning {

/// Where the party really is after d true metres: beside the leg by c0 + d theta + W(d), along it
/// by a0 + what its count is wrong by. Metres and radians.
struct LegGrowth {
  double start_cross_m2 = 0, start_along_m2 = 0, start_both_m2 = 0;  ///< of c0, a0, and together
  double angle2 = 0;       ///< of theta: bearing, compass, declination
  double start_angle = 0;  ///< of c0 with theta: the same compass brought the party here
  double wander_m = 0;     ///< of W for each metre: the sightings
  double scale2 = 0;       ///< of the count: a fraction, squared
  double start_scale = 0;  ///< of a0 with it
  double step_m = 0;       ///< of the count for each metre

  [[nodiscard]] double cross_m2(double d) const {
    return start_cross_m2 + d * (2 * start_angle + wander_m + d * angle2);
  }
  [[nodiscard]] double along_m2(double d) const {
    return start_along_m2 + d * (2 * start_scale + step_m + d * scale2);
  }
  /// The count's own part: how far a walk of d counted metres really goes.
  [[nodiscard]] double count_m2(double d) const { return d * (step_m + d * scale2); }
};

/// From the covariances (x east, y north) before the leg and at its end: cross_m2(length) and
/// along_m2(length) are the end's. `shared_bearing2`: variance of compass and declination.
[[nodiscard]] LegGrowth growth_of(const Errors& errors, double shared_bearing2,
                                  const numeric::Covariance& before,
                                  const numeric::Covariance& after, units::GridBearing bearing,
                                  double length_m);

}  // namespace lodeway::reckoning
