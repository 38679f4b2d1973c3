#include "lodeway/reckoning/growth/dead_reckoning.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lodeway::reckoning {

using numeric::Covariance;

Spread leg_spread(const Errors& e, double length) {
  const double sighting = std::min(e.sighting_every_m, length);
  return {length * length * e.bearing_sigma * e.bearing_sigma +
              length * sighting * e.sighting_sigma * e.sighting_sigma,
          length * length * e.distance_sigma * e.distance_sigma +
              length * e.distance_random * e.distance_random};
}

Spread single_leg_spread(const Errors& e, double length) {
  const Spread own = leg_spread(e, length);
  return {own.cross_m2 + length * length * e.compass_sigma * e.compass_sigma,
          own.along_m2 + length * length * e.stride_sigma * e.stride_sigma};
}

Drift::Drift(const Errors& errors, double declination_sigma, Covariance at_fix)
    : errors_(errors),
      shared_bearing2_(errors.compass_sigma * errors.compass_sigma +
                       declination_sigma * declination_sigma),
      start_(at_fix) {}

bool Drift::goes_straight_on(units::GridBearing on) const {
  return open_length_ > 0 && std::abs(std::remainder(on.in_radians() - open_bearing_,
                                                     2 * std::numbers::pi)) <= 1e-6;
}

void Drift::add_leg(units::GridBearing on, double length) {
  const double bearing = on.in_radians();
  if (open_length_ > 0 && !goes_straight_on(on)) {
    closed_ += open_leg();
    open_length_ = 0;
  }
  open_bearing_ = bearing;
  open_length_ += length;
  net_ = net_ + earth::GridPoint{length * std::sin(bearing), length * std::cos(bearing)};
}

void Drift::reset(Covariance at_fix) {
  start_ = at_fix;
  closed_ = {};
  net_ = {};
  open_bearing_ = open_length_ = 0;
  set_right_ = 1;
}

Covariance Drift::open_leg() const {
  if (open_length_ <= 0) return {};
  const Spread s = leg_spread(errors_, open_length_);
  return numeric::covariance_along(open_bearing_, s.along_m2, s.cross_m2);
}

Covariance Drift::independent_part() const { return closed_ + open_leg(); }

Covariance Drift::shared_part() const {
  const double d2 = net_.east_m * net_.east_m + net_.north_m * net_.north_m;
  return numeric::covariance_along(std::atan2(net_.east_m, net_.north_m),
                                   d2 * errors_.stride_sigma * errors_.stride_sigma,
                                   d2 * shared_bearing2_);
}

Covariance Drift::total() const { return start_ + independent_part() + shared_part(); }

LegAxes seen_from_leg(const Covariance& c, units::GridBearing on) {
  const double bearing = on.in_radians();
  const double along = std::sqrt(std::max(c.along(bearing), 0.0));
  const double cross = std::sqrt(std::max(c.along(bearing + 0.5 * std::numbers::pi), 0.0));
  const double both = along * cross;
  return {cross, along, both > 0 ? std::clamp(c.along_with_right(bearing) / both, -1.0, 1.0) : 0.0};
}

}  // namespace lodeway::reckoning
