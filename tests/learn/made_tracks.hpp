#pragma once
/// Recorded walks that a test makes itself, so that what is in them is known.
#include <string>

namespace lodeway::learn {

/// Seconds after a fixed instant, as GPX writes them.
std::string stamp(double seconds);

struct MadeTrack {
  double lat = 54.5, lon = -2.9;
  int points = 500;
  double step_s = 15;
  bool heights = true;
  bool eastward = false;  ///< else to the north
};
/// One point each `step_s`, some 4 km/h in waves: 1.1 m/s in the mean, exactly known by summing.
std::string made_track(const MadeTrack& how);
/// Northward.
std::string made_track(double lat, double lon, int points, double step_s = 15);

}  // namespace lodeway::learn
