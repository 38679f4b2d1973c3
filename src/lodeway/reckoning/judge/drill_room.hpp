#pragma once
/// How far a party that has not found a leg's end may go and look for it before it comes onto
/// ground to keep off. Method: docs/method/hazard.md
#include <limits>

#include "lodeway/reckoning/judge/judge.hpp"

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
[[nodiscard]] double may_go_on_m(double ahead_m, const LegModel& model);

/// So far short of ground to keep off on a line met who follows it turns round: by its count from
/// where it met the line, which is two sigmas off.
[[nodiscard]] inline double short_of_m(const LegModel& model) {
  return least_on_m + 2 * model.line_sigma_m;
}
/// The look along a line met, of who has not seen the mark: `on_m` from where it was met towards the
/// mark and beyond, then turned round. `there_is` false: that is less than was aimed off, so who is
/// not there by then goes back to where it met the line.
struct LineLook {
  bool there_is = true, on_bounded = false;
  double on_m = 0;
  double back_m = DrillRoom::free;  ///< the other way, all of it; free: nothing lies there
};
[[nodiscard]] LineLook line_look(const DrillRoom& room, const LegModel& model, double search_m);
/// drill_room's two figures along the line met, alone.
void room_along_line(const HazardGround& hazards, const Guides& guides, const LegModel& model,
                     double search_m, DrillRoom& room);

/// `search_m`: how far along the line met the drill goes. Straight ahead the path and one sigma to
/// either side of it are looked at; along a line its own places, to the metre, unless the line itself
/// is ground to keep off (a river's bank). Accuracy: the grid's cell.
[[nodiscard]] DrillRoom drill_room(const HazardGround& hazards, const Guides& guides,
                                   const walking::Leg& leg, const LegModel& model, double search_m);

}  // namespace lodeway::reckoning
