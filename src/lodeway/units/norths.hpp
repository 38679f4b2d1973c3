#pragma once
/// The two angles between the three norths of one place on one day, kept together.
#include "lodeway/units/bearing.hpp"

namespace lodeway::units {

struct Norths {
  Declination declination{Angle::degrees(0)};
  Convergence convergence{Angle::degrees(0)};
};

/// As the same functions of the two angles (bearing.hpp).
[[nodiscard]] inline MagneticBearing to_magnetic(GridBearing b, const Norths& n) {
  return to_magnetic(b, n.convergence, n.declination);
}
[[nodiscard]] inline GridBearing to_grid(MagneticBearing b, const Norths& n) {
  return to_grid(b, n.convergence, n.declination);
}
[[nodiscard]] inline Angle grid_magnetic_angle(const Norths& n) {
  return grid_magnetic_angle(n.convergence, n.declination);
}

}  // namespace lodeway::units
