#include "lodeway/reckoning/growth/growth.hpp"

#include <algorithm>
#include <numbers>

namespace lodeway::reckoning {

LegGrowth growth_of(const Errors& e, double shared_bearing2, const numeric::Covariance& before,
                    const numeric::Covariance& after, units::GridBearing on, double length) {
  const double bearing = on.in_radians();
  const double right = bearing + 0.5 * std::numbers::pi;
  LegGrowth g;
  g.start_cross_m2 = before.along(right);
  g.start_along_m2 = before.along(bearing);
  g.start_both_m2 = before.along_with_right(bearing);
  g.angle2 = e.bearing_sigma * e.bearing_sigma + shared_bearing2;
  g.wander_m = std::min(e.sighting_every_m, length) * e.sighting_sigma * e.sighting_sigma;
  g.scale2 = e.distance_sigma * e.distance_sigma + e.stride_sigma * e.stride_sigma;
  g.step_m = e.distance_random * e.distance_random;
  // what is left over is shared: errors that were at work before the leg too
  const double cross_left = after.along(right) - g.cross_m2(length);
  const double along_left = after.along(bearing) - g.along_m2(length);
  g.start_angle = cross_left / (2 * length);
  g.start_scale = along_left / (2 * length);
  return g;
}

}  // namespace lodeway::reckoning
