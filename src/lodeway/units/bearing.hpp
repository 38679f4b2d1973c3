#pragma once
/// Directions on the ground: clockwise, from a *named* north that is part of the type.
/// Unit: degrees, kept as degrees so that quarter turns stay exact.
/// Sign rules: docs/method/norths.md
#include <cmath>
#include <numbers>

namespace lodeway::units {

/// A turn, clockwise positive, not normalised. Only the named makers build one.
class Angle {
 public:
  constexpr Angle() = default;
  [[nodiscard]] static constexpr Angle degrees(double d) { return Angle{d}; }
  [[nodiscard]] static constexpr Angle mils(double m) { return Angle{m * 360.0 / 6400.0}; }
  [[nodiscard]] static constexpr Angle radians(double r) {
    return Angle{r * 180.0 / std::numbers::pi};
  }
  [[nodiscard]] constexpr double in_degrees() const { return deg_; }
  [[nodiscard]] constexpr double in_mils() const { return deg_ * 6400.0 / 360.0; }
  [[nodiscard]] constexpr double in_radians() const { return deg_ * std::numbers::pi / 180.0; }
  [[nodiscard]] friend constexpr Angle operator+(Angle a, Angle b) {
    return Angle{a.deg_ + b.deg_};
  }
  [[nodiscard]] friend constexpr Angle operator-(Angle a, Angle b) {
    return Angle{a.deg_ - b.deg_};
  }
  [[nodiscard]] friend constexpr Angle operator-(Angle a) { return Angle{-a.deg_}; }
  [[nodiscard]] friend constexpr bool operator==(Angle a, Angle b) = default;

 private:
  constexpr explicit Angle(double deg) : deg_(deg) {}
  double deg_ = 0.0;
};

enum class North : unsigned char { true_north, grid, magnetic };

template <North N>
class Bearing {
 public:
  constexpr Bearing() = default;
  /// Any finite angle, brought into [0, 360). NaN stays NaN; it never turns into a direction.
  [[nodiscard]] static Bearing degrees(double d) {
    const double r = std::fmod(d, 360.0), w = r < 0.0 ? r + 360.0 : r;
    return Bearing{w == 360.0 ? 0.0 : w};  // r = -1e-20 rounds up to 360
  }
  [[nodiscard]] constexpr double in_degrees() const { return deg_; }
  [[nodiscard]] constexpr double in_radians() const { return deg_ * std::numbers::pi / 180.0; }
  [[nodiscard]] constexpr double in_mils() const { return deg_ * 6400.0 / 360.0; }
  /// The way back along the same line, for the same north.
  [[nodiscard]] Bearing back() const { return degrees(deg_ + 180.0); }
  /// The shorter turn from b to a, within [-180, 180] degrees. Only for one and the same north.
  [[nodiscard]] friend Angle operator-(Bearing a, Bearing b) {
    return Angle::degrees(std::remainder(a.deg_ - b.deg_, 360.0));
  }
  [[nodiscard]] friend Bearing operator+(Bearing b, Angle turn) {
    return degrees(b.deg_ + turn.in_degrees());
  }

 private:
  constexpr explicit Bearing(double deg) : deg_(deg) {}
  double deg_ = 0.0;
};

using TrueBearing = Bearing<North::true_north>;
using GridBearing = Bearing<North::grid>;
using MagneticBearing = Bearing<North::magnetic>;

/// How far east of true north another north lies. `explicit`: braces can't swap the two in a call.
struct Declination {  ///< magnetic north, clockwise (east) from true north
  Angle east;
  constexpr explicit Declination(Angle a) : east(a) {}
};
struct Convergence {  ///< grid north, clockwise (east) from true north
  Angle east;
  constexpr explicit Convergence(Angle a) : east(a) {}
};

/// true = grid + convergence; magnetic = true - declination. Exact to rounding (1e-13 degrees).
[[nodiscard]] inline TrueBearing to_true(GridBearing b, Convergence c) {
  return TrueBearing::degrees(b.in_degrees() + c.east.in_degrees());
}
[[nodiscard]] inline GridBearing to_grid(TrueBearing b, Convergence c) {
  return GridBearing::degrees(b.in_degrees() - c.east.in_degrees());
}
[[nodiscard]] inline MagneticBearing to_magnetic(TrueBearing b, Declination d) {
  return MagneticBearing::degrees(b.in_degrees() - d.east.in_degrees());
}
[[nodiscard]] inline MagneticBearing to_magnetic(GridBearing b, Convergence c, Declination d) {
  return MagneticBearing::degrees(b.in_degrees() + c.east.in_degrees() - d.east.in_degrees());
}
[[nodiscard]] inline GridBearing to_grid(MagneticBearing b, Convergence c, Declination d) {
  return GridBearing::degrees(b.in_degrees() + d.east.in_degrees() - c.east.in_degrees());
}

/// Grid-magnetic angle: magnetic north clockwise (east) from grid north, within [-180, 180];
/// magnetic = grid - it.
[[nodiscard]] inline Angle grid_magnetic_angle(Convergence c, Declination d) {
  return Angle::degrees(std::remainder(d.east.in_degrees() - c.east.in_degrees(), 360.0));
}

}  // namespace lodeway::units
