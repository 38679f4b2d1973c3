// The two corrections of a grid bearing cannot change places, with names or with braces.
#include "lodeway/units/bearing.hpp"

using namespace lodeway::units;

MagneticBearing needle(GridBearing b, Convergence c, Declination d) {
#ifdef LODEWAY_WRONG_USE
  return to_magnetic(b, d, c);
#else
  return to_magnetic(b, c, d);
#endif
}
