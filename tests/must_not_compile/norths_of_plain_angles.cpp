// The norths are a declination and a convergence, in their own types: not two angles in some order.
#include "lodeway/units/norths.hpp"

using namespace lodeway::units;

MagneticBearing needle(GridBearing b, Angle d, Angle c) {
#ifdef LODEWAY_WRONG_USE
  return to_magnetic(b, Norths{d, c});
#else
  return to_magnetic(b, Norths{Declination{d}, Convergence{c}});
#endif
}
