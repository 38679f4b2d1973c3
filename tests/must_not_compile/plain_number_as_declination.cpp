// Neither an angle nor a number in braces becomes a declination unsaid.
#include "lodeway/units/bearing.hpp"

using namespace lodeway::units;

MagneticBearing needle(TrueBearing b) {
#ifdef LODEWAY_WRONG_USE
  return to_magnetic(b, {Angle::degrees(3.0)});
#else
  return to_magnetic(b, Declination{Angle::degrees(3.0)});
#endif
}
