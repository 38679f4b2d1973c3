// A magnetic and a grid bearing have no difference: only two of the same north have.
#include "lodeway/units/bearing.hpp"

using namespace lodeway::units;

double turn(GridBearing a, [[maybe_unused]] MagneticBearing b) {
#ifdef LODEWAY_WRONG_USE
  return (a - b).in_degrees();
#else
  return (a - a).in_degrees();
#endif
}
