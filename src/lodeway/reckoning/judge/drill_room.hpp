#pragma once
/// How far a party that has not found a leg's end may go and look for it before it comes onto
/// ground to keep off. Method: docs/method/hazard.md
#include <limits>

#include "lodeway/reckoning/judge/hazard.hpp"
#include "lodeway/reckoning/judge/leg_model.hpp"

namespace lodeway::reckoning {

/// Metres to the first ground to keep off; infinity where none lies within what the drill asks for.
struct DrillRoom {
  static constexpr double free = std::numeric_limits<double>::infinity();
  double ahead_m = free;  ///< past the end, or past the aim of a leg that is aimed off: straight on,
                          ///< or on along what is followed
  double line_on_m = free;    ///< along the line met, from the leg's end away from the aim
  double line_back_m = free;  ///< and the other way, towards the aim and past it
  double around_m = free;     ///< from the end, in any direction
};

/// How far past its count a party may go: as far as it would, but stopping two sigmas short of what
/// lies `ahead_m` on, by which 2 in 100 are still too far; under 20 m nobody is sent on.
inline constexpr double least_on_m = 20;
/// *Practice*: who looks for something along a line looks so far at least.
inline constexpr double least_look_m = 50;
/// So far short of ground to keep off on a line met who follows it turns round: by its count from
/// where it met the line, which is two sigmas off.
[[nodiscard]] inline double short_of_m(double line_sigma_m) {
  return least_on_m + 2 * line_sigma_m;
}
[[nodiscard]] double may_go_on_m(double ahead_m, const Approach& way);

/// `search_m`: how far along the line met the drill goes. Straight ahead the path and one sigma to
/// either side of it are looked at; along a line its own places, to the metre, unless the line itself
/// is ground to keep off (a river's bank). Accuracy: the grid's cell.
[[nodiscard]] DrillRoom drill_room(const HazardGround& hazards, const Guides& guides,
                                   const walking::Leg& leg, const Approach& way, double search_m);

/// AtLine::follows_m with so much room, of a party that would go `search_m`. Under least_on_m nobody
/// follows the line.
[[nodiscard]] double may_follow_m(const DrillRoom& room, const AtLine& end, double search_m);

}  // namespace lodeway::reckoning
