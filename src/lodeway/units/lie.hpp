#pragma once
/// How an undirected line lies on the map: a direction modulo half a turn, from grid north.
#include <cmath>

#include "lodeway/units/bearing.hpp"

namespace lodeway::units {

/// Unit: degrees. A wall has a lie, a walk along it a bearing; the one is no argument for the
/// other.
class Lie {
 public:
  constexpr Lie() = default;
  /// Any finite angle, brought into [0, 180). NaN stays NaN.
  [[nodiscard]] static Lie degrees(double d) {
    const double r = std::fmod(d, 180.0), w = r < 0.0 ? r + 180.0 : r;
    return Lie{w == 180.0 ? 0.0 : w};  // r = -1e-20 rounds up to 180
  }
  /// Of a line that is walked on this bearing, whichever way.
  [[nodiscard]] static Lie of(GridBearing b) { return degrees(b.in_degrees()); }
  [[nodiscard]] constexpr double in_degrees() const { return deg_; }
  /// The angle between two lines, 0 to 90 degrees.
  [[nodiscard]] friend Angle apart(Lie a, Lie b) {
    return Angle::degrees(std::abs(std::remainder(a.deg_ - b.deg_, 180.0)));
  }

 private:
  constexpr explicit Lie(double deg) : deg_(deg) {}
  double deg_ = 0.0;
};

}  // namespace lodeway::units
