#pragma once
/// Who walks: a party goes at the pace of its slowest member.
#include <optional>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/walking/chance_changes.hpp"
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
  /// The leader's own word on how times vary: one sigma of the logarithm for the whole day about
  /// the model as it is; absent: the bands below.
  std::optional<double> time_band;
  ErrorOverrides errors;
  Doubt doubt;
  std::optional<TimeBands> bands;  ///< learnt from the party's own walks; absent: the model's
  /// What it notices, keeps to, takes and knows otherwise than the table of its skill.
  ChanceChanges chances;
};

/// How this party's times lie about the model's: learnt, or as the leader says, or the model's own.
[[nodiscard]] inline TimeBands bands_of(const Party& party) {
  if (party.bands) return *party.bands;
  if (party.time_band) return {1, *party.time_band, 0, 0};
  return default_bands(party.model);
}

/// Minutes for a metre of level ground of this speed factor, in the middle.
[[nodiscard]] inline double level_min_per_m(const Party& party, double ground_factor) {
  return bands_of(party).centre * 0.06 / (party.flat_speed_kmh * ground_factor);
}

}  // namespace lodeway::walking
