#pragma once
/// How to get off the hill from each leg: one field back from ground that people live on or drive
/// on. Method: docs/method/ways-off.md
#include <map>

#include "lodeway/route/find_path.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/way.hpp"

namespace lodeway::route {

/// The time to safe ground from everywhere: roads, huts and settlements of the map, and the places
/// that the request names. Refers to its arguments, which must outlive it.
class WaysOff {
 public:
  WaysOff(const walking::Ground& ground, const walking::Request& request, const Prepared& prepared,
          units::Language language);

  /// Sets `Leg::way_off` from each leg's middle to the safe ground that is reached soonest: its
  /// name, minutes as the party walks on a slow day, the direction of the first 150 m and the line.
  /// A leg from which none can be reached, or that runs on a road itself, gets none. How safe a way
  /// off is in this weather is not judged. May be called from any thread.
  void set(walking::Way& way) const;

 private:
  const walking::Ground& ground_;
  const walking::Party& party_;
  const Prepared& prepared_;
  std::map<std::uint32_t, std::string> havens_;  ///< by node: what it is called
  Field field_;
};

}  // namespace lodeway::route
