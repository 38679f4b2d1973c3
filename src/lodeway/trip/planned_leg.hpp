#pragma once
/// A leg as card, sheet, text and JSON have it: everything that is said of it, made once by plan_of.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/reckoning/judge/escape.hpp"
#include "lodeway/trip/directions.hpp"
#include "lodeway/trip/fords.hpp"
#include "lodeway/trip/leg_notes.hpp"
#include "lodeway/units/norths.hpp"

namespace lodeway::trip {

/// What a party measures and counts on one part of a leg.
struct Counted {
  double length_m = 0;  ///< on the ground
  double map_mm = 0;    ///< on the trip's map, as a ruler has it
  double double_paces = 0, minutes = 0;
};

/// The part on the needle: to the leg's end, or to the aim beside it.
struct OnTheNeedle : Counted {
  earth::GridPoint aim;
  units::MagneticBearing magnetic;  ///< what is set on the compass
  units::GridBearing grid;
};

/// After an aim to one side: at the line met, turn to the other side and go along it to the end.
struct AlongAfter : Counted {
  mapdata::Side aimed_to = mapdata::Side::none;
  std::string line;
};

/// Where lines part: which to take.
struct ForkAhead {
  double at_m = 0;  ///< along the leg from its start
  Turn turn = Turn::straight_on;
  units::MagneticBearing taken;
  std::vector<units::MagneticBearing> wrong = {}, beside = {};  ///< as Fork has them
  bool met = false, beside_all_along = false;
};
struct BendAhead {
  double at_m = 0;
  units::MagneticBearing after;
  mapdata::Side to = mapdata::Side::none;
};

/// Water to cross without a bridge.
struct FordAhead : Ford {
  std::optional<units::MagneticBearing> towards_bridge;
};

struct PlannedLeg;

/// From a place on a leg to safe ground.
struct PlannedEscape {
  reckoning::LeavesAt from = reckoning::LeavesAt::start;
  std::string to;                ///< what the safe ground is called
  std::vector<PlannedLeg> legs;  ///< none: the party stands on safe ground
  double minutes = 0, minutes_slow = 0;
  double certainty = 1, hazard_probability = 0;
  double back_minutes = 0;        ///< back the way that they came; 0: the party stands on safe ground
  bool back = false;              ///< the way that they came
  bool snow_slope = false;        ///< in snow: through 30 to 45 degrees
  bool after_last_light = false;  ///< on a slow day it ends so late
};

/// The escape route that a leg's own line on the card has: from its middle, else from its start; where
/// that is safe ground from its end.
struct EscapeRoute {
  std::string haven;  ///< what the safe ground is called
  double minutes = 0;
  std::string follows;         ///< what its first leg follows; empty: on a bearing
  std::size_t more_steps = 0;  ///< after the first
  bool back = false;           ///< the way that they came
  bool from_end = false;
  units::GridBearing first_grid;  ///< of the first 150 m
  units::MagneticBearing first_magnetic;
  std::vector<earth::GridPoint> line;  ///< empty: the party stands on safe ground
};

/// All norths are those of the leg's own start.
struct PlannedLeg : reckoning::JudgedLeg {
  std::optional<OnTheNeedle> needle;  ///< of a leg on a bearing
  std::optional<AlongAfter> after;    ///< of a leg that is aimed off
  Counted counted;  ///< the part on the needle, or the whole of what is followed
  units::MagneticBearing magnetic_bearing;  ///< the needle's; along a line: start to end
  units::GridBearing grid_bearing;
  units::MagneticBearing first_magnetic_bearing;  ///< how it sets out (directions.hpp)
  std::string reference;                          ///< grid reference of its end, ready to print
  std::string full_reference;  ///< of its end, for rescuers: lettered grid, latitude, longitude
  std::string remark;  ///< what keeps to one side of what is followed; may be empty
  std::vector<ForkAhead> forks;     ///< on the way
  std::optional<ForkAhead> at_end;  ///< where the end is a fork
  std::vector<BendAhead> bends;
  std::vector<FordAhead> fords;
  std::vector<LegNote> notes;  ///< of the way's own legs; of an escape's: none
  Flow flow = Flow::none;
  mapdata::Side keeps = mapdata::Side::none;  ///< on which hand what is followed is kept
  std::vector<PlannedEscape> escapes;  ///< from its start, middle, end; of an escape's leg: none
  std::optional<EscapeRoute> escape;
};


/// From the place that is left to safe ground in one; empty: the party stands on it.
[[nodiscard]] inline std::vector<earth::GridPoint> line_of(const PlannedEscape& route) {
  std::vector<earth::GridPoint> out;
  for (const auto& leg : route.legs) {
    const auto& line = leg.course.line;
    out.insert(out.end(), line.begin() + (out.empty() ? 0 : 1), line.end());
  }
  return out;
}

struct PlannedWay {
  std::string name;  ///< "quick", "given by the leader"
  std::vector<PlannedLeg> legs;
  double certainty = 0;  ///< product of the legs'
};

/// The way without what is said of it: to be walked again.
[[nodiscard]] inline walking::Way plain(const PlannedWay& way) {
  return {way.name, {way.legs.begin(), way.legs.end()}};
}
/// The way as it was judged.
[[nodiscard]] inline reckoning::JudgedWay as_judged(const PlannedWay& way) {
  return {way.name, {way.legs.begin(), way.legs.end()}, way.certainty};
}

}  // namespace lodeway::trip
