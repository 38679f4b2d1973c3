#pragma once
/// Where might the party be: the covariance of a dead-reckoned place.
/// Errors are small angles; second order shrinks the mean by exp(-variance / 2), which the
/// rehearsal keeps. Source:
/// docs/method/dead-reckoning.md
#include <optional>

#include "lodeway/earth/place.hpp"
#include "lodeway/numeric/covariance.hpp"
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::reckoning {

/// Variances at the end of one straight leg, m2, in the leg's own axes; shared errors apart.
struct Spread {
  double cross_m2 = 0, along_m2 = 0;
};

/// What one leg adds by itself: cross = L^2 sb^2 + L s se^2, along = L^2 sp^2 + L nu^2.
/// A leg shorter than a sighting is one sighting: s is then L. Exact for whole numbers of
/// sightings.
[[nodiscard]] Spread leg_spread(const Errors& errors, double length_m);
/// The same with the shared compass and stride of a party that sets out from a sure place.
[[nodiscard]] Spread single_leg_spread(const Errors& errors, double length_m);

/// The error since the last fix, leg after leg. Shared errors act on the NET displacement since the
/// fix, so a closed loop cancels them; a leg that goes on in the same direction (within 1e-6 rad)
/// is the same leg, so cutting one in two changes nothing.
class Drift {
 public:
  /// `declination_sigma`: radians, shared like the compass.
  Drift(const Errors& errors, double declination_sigma, numeric::Covariance at_fix = {});
  void add_leg(units::GridBearing bearing, double length_m);
  /// Is a leg on this bearing the same leg as the last?
  [[nodiscard]] bool goes_straight_on(units::GridBearing bearing) const;
  /// The chance that no bearing since the fix was set or read far wrong (gross errors are no part
  /// of the covariance: nobody who makes one is near).
  [[nodiscard]] double set_right() const { return set_right_; }
  void set_right_by(double chance) { set_right_ *= chance; }
  /// The party knows where it is: only `at_fix` is left.
  void reset(numeric::Covariance at_fix = {});
  /// Total covariance (x east, y north), m2.
  [[nodiscard]] numeric::Covariance total() const;
  [[nodiscard]] numeric::Covariance independent_part() const;  ///< without start and shared errors
  [[nodiscard]] numeric::Covariance shared_part() const;
  [[nodiscard]] earth::GridPoint net() const { return net_; }  ///< displacement since the fix
  /// Of a party that has come along a line: a place on it some way back. Whoever has just walked
  /// an arm of a junction does not take it for the one to follow.
  [[nodiscard]] std::optional<earth::GridPoint> came_by() const { return came_by_; }
  void come_by(std::optional<earth::GridPoint> place) { came_by_ = place; }
  /// Equal errors that came alike go on alike, whatever comes.
  friend bool operator==(const Drift&, const Drift&) = default;

 private:
  [[nodiscard]] numeric::Covariance open_leg() const;
  Errors errors_;
  double shared_bearing2_;
  numeric::Covariance start_, closed_;
  earth::GridPoint net_;
  double open_bearing_ = 0, open_length_ = 0;  // radians
  double set_right_ = 1;
  std::optional<earth::GridPoint> came_by_;
};

/// Sigmas of a covariance seen from a leg on this bearing: across it, along it, and their
/// correlation (positive: right goes with far).
struct LegAxes {
  double cross_sigma_m = 0, along_sigma_m = 0, correlation = 0;
};
[[nodiscard]] LegAxes seen_from_leg(const numeric::Covariance& c,
                                    units::GridBearing bearing);

/// Along sigma of a party that has gone on `beyond_m` past the end of a leg: errors of scale grow
/// with it.
[[nodiscard]] inline double at_give_up(double along_sigma_m, double length_m, double beyond_m) {
  return along_sigma_m * (length_m + beyond_m) / length_m;
}

}  // namespace lodeway::reckoning
