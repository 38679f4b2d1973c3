#pragma once
/// What a leader asks for: points in order, how each stretch is to be walked, what to keep out of.
#include <string>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::walking {

enum class Stretch : unsigned char {
  find,     ///< Lodeway chooses
  along,    ///< along the line of the map that joins the two points
  bearing,  ///< straight
};

/// A point of the way. `stretch` says how the party gets here from the point before it.
struct Waypoint {
  std::string name;
  earth::GridPoint at;
  Stretch stretch = Stretch::find;
  double stay_min = 0;  ///< planned stay here, minutes
  bool safe = true;     ///< of the first and the last: counts as safe ground
};

/// Ground that the leader forbids. The ring does not repeat its first point.
struct AvoidArea {
  std::string name;
  std::vector<earth::GridPoint> ring;
  friend bool operator==(const AvoidArea&, const AvoidArea&) = default;
};

/// Which of the ways found is wanted.
enum class Choice : unsigned char {
  quick,   ///< least time within the limits
  middle,  ///< the best trade between time and certainty
  sure,    ///< likeliest to be kept, within the daylight
};
inline constexpr int choice_count = 3;

/// A place the leader counts as safe ground, beside the roads, huts and settlements of the map.
struct SafePlace {
  std::string name;
  earth::GridPoint at;
};

struct Request {
  std::vector<Waypoint> points;  ///< start, vias, end: at least two
  std::vector<AvoidArea> avoid;
  std::vector<SafePlace> safe;
  Choice choice = Choice::middle;
  Party party;
};

}  // namespace lodeway::walking
