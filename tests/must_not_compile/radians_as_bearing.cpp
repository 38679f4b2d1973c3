// A leg's error grows on a grid bearing: neither a plain number nor what the needle shows.
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

using namespace lodeway;

void walk(reckoning::Drift& drift, units::GridBearing grid, [[maybe_unused]] units::MagneticBearing m) {
#ifdef LODEWAY_WRONG_USE
  drift.add_leg(m, 100);
#else
  drift.add_leg(grid, 100);
#endif
}
