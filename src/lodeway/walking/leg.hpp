#pragma once
/// A leg as the map shows it, and a way as an ordered set of legs. Made by route; what it is worth to
/// a party stands in reckoning's Judged, what the card says of it in trip's PlannedLeg.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::walking {

/// Something passed on the way, to be ticked off.
struct Tick {
  std::string what;  ///< "wall crosses", "beck joins"; in the plan's language
  mapdata::Kind kind = mapdata::Kind::other;
  mapdata::Side side = mapdata::Side::none;  ///< none: right across the way
  double at_m = 0;                           ///< along the leg from its start, horizontal
  double minutes = 0;                        ///< walking time from the leg's start
  GridPoint at;
};

/// What stops a party that goes on past the end; absent means: nothing stops it, and that is said.
struct Stop {
  std::string what;
  mapdata::Kind kind = mapdata::Kind::other;
  double beyond_m = 0;  ///< past the leg's end; 0 when the end itself stops
  double minutes = 0;
  std::vector<GridPoint> shape;  ///< the piece of it to be marked on the sheet
};

/// Ground to keep off near a leg.
struct Danger {
  std::string what;
  mapdata::Side side = mapdata::Side::none;  ///< none: ahead, beyond the end
  double distance_m = 0;
};

struct Leg {
  Course course;
  Figures figures;
  std::vector<Tick> ticks;
  std::optional<Stop> stop;
  std::vector<Danger> dangers;
};

struct Way {
  std::string name;  ///< "quick", "given by the leader"
  std::vector<Leg> legs;
};

}  // namespace lodeway::walking
