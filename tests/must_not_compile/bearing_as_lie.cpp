// A wall lies somehow, a walk goes somewhere: a bearing is no lie until it is said to be one.
#include "lodeway/units/lie.hpp"

using namespace lodeway::units;

double crossing(Lie wall, GridBearing walk) {
#ifdef LODEWAY_WRONG_USE
  return apart(wall, walk).in_degrees();
#else
  return apart(wall, Lie::of(walk)).in_degrees();
#endif
}
