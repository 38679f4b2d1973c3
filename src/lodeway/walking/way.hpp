#pragma once
/// The plain types that everything above shares: a leg, and a way as an ordered set of legs.
/// Bearings are kept as grid bearings; the magnetic figure is stored beside, made once by trip.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::walking {

using earth::GridPoint;

enum class LegKind : unsigned char {
  along,    ///< along a named line: a handrail
  bearing,  ///< on a bearing to a stated end
};

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

/// Aim to one side of the end, so that the turn at the line is known.
struct AimOff {
  mapdata::Side side = mapdata::Side::none;  ///< the side aimed to
  double offset_m = 0;                       ///< along the line met, from the aim to the end
  GridPoint aim;
  std::string line;  ///< what is met
};

/// How sure the leg is; filled by reckoning, absent before.
struct Sureness {
  double certainty = 0;  ///< probability that the party is where it believes, at the end
  double cross_sigma_m = 0, along_sigma_m = 0;
  std::string confusable;  ///< what could be taken for the end; empty: nothing found
  double confusable_probability = 0;
  double hazard_probability = 0;  ///< of setting foot on forbidden ground
  double recovery_minutes = 0;    ///< expected, when it fails
  bool fix_at_end = true;         ///< false: a dog-leg's turn, nothing to see
  std::string if_lost;            ///< what to do, one sentence
  double east_east_m2 = 0, east_north_m2 = 0, north_north_m2 = 0;  ///< covariance at the end
};

/// The way to safe ground from a leg.
struct WayOff {
  std::string words;
  std::string haven;  ///< what the safe ground is called
  double minutes = 0;
  units::GridBearing first;  ///< which way to set out
  std::vector<GridPoint> line;
};

struct Leg {
  LegKind kind = LegKind::bearing;
  std::string from, to;  ///< what its ends are called
  mapdata::Kind along_kind = mapdata::Kind::other;
  std::string along;            ///< "path", "Fallow Beck": what is followed; empty on a bearing
  std::vector<GridPoint> line;  ///< as walked, at least two points; a bearing leg has just two
  double length_m = 0;          ///< horizontal, on the ground (grid scale taken out)
  double climb_m = 0, descent_m = 0;
  units::GridBearing grid_bearing;
  units::MagneticBearing magnetic_bearing;
  double minutes = 0;        ///< walking, rests not in it
  double minutes_slow = 0;   ///< nine of ten parties like this need less
  double double_paces = 0;   ///< of the bearing part, or of the whole handrail
  double ground_factor = 1;  ///< speed factor of the ground, mean over the leg
  std::vector<Tick> ticks;
  std::optional<Stop> stop;
  std::vector<Danger> dangers;
  std::optional<AimOff> aim_off;
  std::optional<Sureness> sureness;
  std::optional<WayOff> way_off;
  std::string remark;  ///< "the last 60 m are flat", at most one sentence
  bool touches_void = false;
};

struct Way {
  std::string name;  ///< "quickest", "given by the leader"
  std::vector<Leg> legs;
};

}  // namespace lodeway::walking
