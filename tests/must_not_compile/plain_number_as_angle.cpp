// A plain number says neither degrees nor mils: it is no angle.
#include "lodeway/units/bearing.hpp"

using namespace lodeway::units;

Angle quarter() {
#ifdef LODEWAY_WRONG_USE
  return 90.0;
#else
  return Angle::degrees(90.0);
#endif
}
