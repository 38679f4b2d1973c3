#pragma once
/// Who walks: a party goes at the pace of its slowest member.
#include <optional>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/walking/time_bands.hpp"

namespace lodeway::walking {

enum class Instrument : unsigned char { baseplate, mirror };
enum class Skill : unsigned char { novice, practised, expert };

/// One-sigma errors of the party's dead reckoning; *practice* defaults come from
/// reckoning/defaults. Negative or NaN means "take the default".
struct ErrorOverrides {
  double bearing_sigma_deg = -1;   ///< per leg, shared by its sightings
  double sighting_sigma_deg = -1;  ///< per sighting, independent
  double sighting_every_m = -1;    ///< length of one sighting
  double distance_sigma = -1;      ///< fraction of the distance, new with each leg
  double compass_sigma_deg = -1;   ///< shared by all legs: needle, declination, habit
  double stride_sigma = -1;        ///< shared by all legs: fraction of the distance
};

/// How little is known of a party's own figures: log-normal factors, and a shift in logit; 0: the
/// figure is taken as known. Without measurements what a table worth 4 trials (spreads) and 6
/// (chances) leaves open, *practice* (docs/method/learning.md). A certainty that takes the table as
/// known flatters; none is averaged over this yet.
struct Doubt {
  double bearing_log_sd = 0.35, distance_log_sd = 0.35, chance_logit_sd = 1;
};

struct Party {
  int size = 2;
  double flat_speed_kmh = 4.0;  ///< slowest member, on a good path, rests not counted
  double stride_m = 0.8;        ///< one step; a double pace is two of them
  double load_kg = 8.0;
  TimeModel model = TimeModel::naismith_langmuir;
  double rest_every_min = 50, rest_min = 10;  ///< 0 for no rests
  Instrument instrument = Instrument::baseplate;
  Skill skill = Skill::practised;
  mapdata::Visibility visibility = mapdata::Visibility::clear;
  double max_slope_deg = 35;  ///< steeper ground is forbidden without a path on it
  double max_leg_m = 1500;    ///< longest bearing leg the leader will set
  bool ford_streams = true;   ///< may a stream be crossed without a bridge? Rivers never
  double time_band = 0.15;    ///< one-sigma fraction of a leg's time; *practice*, or calibrated
  ErrorOverrides errors;
  Doubt doubt;
  std::optional<TimeBands> bands;  ///< learnt from the party's own walks; absent: the model's
};

}  // namespace lodeway::walking
