#pragma once
/// How long a stretch takes. Sources, validity and choices: docs/method/walking-time.md
/// Slopes are rise over run along the direction of travel, uphill positive. Distances are
/// horizontal.
#include <span>

#include "lodeway/terrain/profile.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::walking {

/// What the models need of a stretch. Descents are parted by steepness: 5 to 12 degrees, and
/// steeper.
struct Stretches {
  double distance_m = 0, up_m = 0, down_m = 0;
  double down_moderate_m = 0, down_steep_m = 0;
};

/// Totals of a profile; a descent's steepness is taken over pieces of at least `piece_m`, because
/// the published rule speaks of slopes of the ground, not of a height model's noise.
inline constexpr double piece_m = 50;
[[nodiscard]] Stretches stretches_of(const terrain::Profile& profile);

/// Naismith 1892 with Langmuir's corrections (1984), seconds: flat term by `flat_kmh`, 10 min for
/// each 100 m up, 10 min less for each 300 m down on 5 to 12 degrees, 10 min more where steeper.
[[nodiscard]] double naismith_langmuir_s(const Stretches& s, double flat_kmh);
/// DIN 33466, seconds, for a whole leg: the longer of flat and vertical time and half the shorter;
/// 300 m/h up, 500 m/h down.
[[nodiscard]] double din_33466_s(const Stretches& s, double flat_kmh);

/// Published speeds, km/h, of a slope:
[[nodiscard]] double tobler_kmh(double slope);        ///< Tobler 1993, NCGIA TR 93-1; on paths
[[nodiscard]] double swiss_min_per_km(double slope);  ///< Swiss signposts; beyond 40 % linear
[[nodiscard]] double irmischer_clarke_kmh(double slope,
                                          bool on_path);  ///< 2018, CaGIS 45:177-186, men

/// Seconds for one horizontal metre, as the search uses it: continuous in the slope. The party's
/// flat speed on good path at factor 1 comes out exactly. For Naismith the descents' steps at 5 and
/// 12 degrees are smoothed; all others are the published function. Domain: slope is held within
/// -1.5 to 1.5; flat_kmh and ground_factor above 0 (asserted).
[[nodiscard]] double pace_s_per_m(TimeModel model, double slope, bool on_path, double flat_kmh,
                                  double ground_factor);

/// Minutes of a leg, as the schedule uses it: the model as published. Models of the kind "speed at
/// a slope" are summed over the profile; Naismith and DIN are taken on the leg's totals.
[[nodiscard]] double leg_minutes(TimeModel model, const terrain::Profile& profile, bool on_path,
                                 double flat_kmh, double ground_factor);

}  // namespace lodeway::walking
