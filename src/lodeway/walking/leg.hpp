#pragma once
/// A leg as the map shows it, and a way as an ordered set of legs. Made by route; what it is worth to
/// a party stands in reckoning's Judged, what the card says of it in trip's PlannedLeg.
#include <cstdint>
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
  bool of_slope = false;  ///< the slope changes and nothing else: not to be checked in cloud

  /// Does a party count anew from it? Of the bends of a way, which have no kind, nobody is sure which
  /// one it is: they are told and nothing is counted from them.
  [[nodiscard]] bool counted_from() const { return kind != mapdata::Kind::other; }
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

enum class Bar : std::uint8_t;  // cover.hpp

/// Ground to keep off beside a leg.
struct BarBeside {
  Bar bar{};
  mapdata::Side side = mapdata::Side::none;  ///< left or right
  double distance_m = 0;                     ///< from the line
  double at_m = 0;                           ///< along the leg, by the grid
};

/// Why a way turns where a leg on a bearing ends and another begins.
struct TurnReason {
  enum class What : unsigned char {
    goes_round,   ///< straight on from the one's start to the other's end something bars
    longest_leg,  ///< straight would be longer than the party's longest leg on a bearing
    quicker,      ///< straight would take longer
  };
  What what = What::goes_round;
  Bar bar{};           ///< of goes_round
  std::string name = {};  ///< of what bars; empty where it has none
  double minutes = 0;  ///< of quicker: so many more straight over
};

struct Leg {
  Course course;
  Figures figures;
  std::vector<Tick> ticks;
  std::optional<Stop> stop;
  std::vector<Danger> dangers;
  std::vector<BarBeside> barred_beside;  ///< what is nearest on either hand, within 200 m
  std::optional<TurnReason> turns_for;  ///< at its end; none: nothing asks for a turn there
};

struct Way {
  std::string name;  ///< "quick", "given by the leader"
  std::vector<Leg> legs;
};

}  // namespace lodeway::walking
