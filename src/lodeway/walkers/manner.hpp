#pragma once
/// How simulated parties notice that something is wrong, and what they do then. Every figure is
/// *practice*: none was measured on people (docs/method/walkers.md). The chances to notice, keep,
/// turn off and know a thing are those of sight::Chances; nothing here is an outcome.
#include "lodeway/sight/party_chances.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::walkers {

/// Means by skill; each party draws its own about them, once.
struct Manner {
  double owns_up = 0.6;         ///< at a look that adds to a contradiction: stops and says so
  double owns_up_log_sd = 0.4;  ///< of each party's own odds: stubbornness
  double know_log_sd = 0.5;     ///< of each party's own odds of knowing and noticing things
  double doubt_min = 10;  ///< standing, to talk and look at the map; own: half to one and a half
  double enough_share =
      0.5;        ///< share of one place in the own mind that is enough to go on from it
  int tries = 4;  ///< so often it looks for its place, then gives the way up
  double stays_in_dark = 0.6;  ///< lost after last light: stays where it is
};
[[nodiscard]] Manner manner_of(walking::Skill skill);

/// What the ground tells a party is not what the estimator assumes: its own model of the truth.
struct Truth {
  double noise = 1.5;      ///< on the sigmas that sight assumes
  double nonsense = 0.05;  ///< share of looks that mean nothing
  double map_noise = 1.5;  ///< on the map's own error, alike over map_alike_m
  double map_alike_m = 100;
  double height_sd_m = 10;     ///< hidden: one offset a party
  double steeper_sd_deg = 3;   ///< hidden: one a party judges all slopes by
  double sight_log_sd = 0.25;  ///< of the distance from which a thing is seen that day
  double gross_least_deg = sight::gross_least_deg, gross_most_deg = sight::gross_most_deg;
};

/// A party is lost while it stands farther than this from where it believes to be, or knows that it
/// does not know.
inline constexpr double lost_m = 150;
/// It ends where it should when it stands within this of the place.
inline constexpr double there_m = 60;
/// Nobody goes faster, ever.
inline constexpr double fastest_m_s = 3;
inline constexpr double step_m = 25;

}  // namespace lodeway::walkers
