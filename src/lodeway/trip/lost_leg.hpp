#pragma once
/// What a party that no longer knows where it is on a leg can look at, and the move that works from
/// there. Rests on `sight` and `belief`, as answers of relocation do. Method:
/// docs/method/lost-card.md
#include <optional>
#include <string>
#include <vector>

#include "lodeway/belief/moves.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::trip {

/// A row each so many metres of the leg: 200 m, or 600 feet where feet are printed.
[[nodiscard]] constexpr double lost_row_m(LengthUnit unit) {
  return unit == LengthUnit::imperial ? 600 * 0.3048 : 200;
}
inline constexpr double lost_reach_m = 170;  ///< what is on either hand, no farther
inline constexpr double lost_beside_m = 60;  ///< where the ground across the way is looked at

/// The nearest thing on one hand.
struct OnHand {
  std::string what;   ///< "path": in the trip's language; of ground to keep off, why
  double away_m = 0;  ///< as it is printed: whole below 10 m, else in steps of 10 m
  bool keep_off = false;
};

/// What is told of one place of the leg.
struct LostRow {
  double along_m = 0;                           ///< from the leg's start
  double height_m = 0;                          ///< NaN on a void: no other figure is known then
  std::optional<units::MagneticBearing> falls;  ///< nothing: almost flat
  double slope_deg = 0;
  std::string steepness, form;               ///< "steep", "spur": in the trip's language
  double left_rise_m = 0, right_rise_m = 0;  ///< of the ground `lost_beside_m` to each hand; or NaN
  std::optional<OnHand> left, right;         ///< ground to keep off before all else
  [[nodiscard]] bool keep_off() const {
    return (left && left->keep_off) || (right && right->keep_off);
  }
};

struct LostLeg {
  std::vector<LostRow> rows;
  double ten_minutes_m = 0;        ///< how far the party goes on this leg in 10 minutes
  std::vector<std::string> moves;  ///< a sentence each, at most two that differ; empty: none works
  /// Where none does: one for each quarter of the needle that the ground may fall towards, where
  /// one works from all of those places: "Where the ground falls towards 315° to 045°: …"
  std::vector<std::string> by_fall;
  double standing_barred = 0;  ///< places on ground to keep off already, of 1
  double downhill_barred = 0;  ///< of those who walk straight downhill, who come onto it, of 1
};

/// Where a party on this leg may be that says no more than that: anywhere along it, half of it as
/// wide as its reckoning is, half anywhere that it may have walked to (belief::before). *Practice*:
/// 25 m across what is followed.
[[nodiscard]] belief::OnCourse on_course(const walking::Leg& leg, const walking::Party& party);

/// The piece of ground on which somebody lost on this line is looked for: 3 km to each side.
[[nodiscard]] sight::Window lost_window(const std::vector<earth::GridPoint>& line);

/// Leg `index` of the plan. `planes`: of lost_window about that leg.
/// Heights are within 0.13 m of the ground's, distances within 5 m, bearings within 1.5 degrees and
/// from the leg's own magnetic north. The moves keep belief::MoveLimits (95 and 1 in 100).
[[nodiscard]] LostLeg lost_leg(const Plan& plan, std::size_t index, const sight::CuePlanes& planes,
                               const sight::Chances& chances);

/// A move as a sentence; `bearing` and `within` ready to print.
[[nodiscard]] std::string move_words(const belief::Move& move, const std::string& bearing,
                                     const std::string& within, Language language);

/// "gentle": of ground that falls so many degrees: flat below 5, gentle 12, moderate 20, steep 30.
[[nodiscard]] std::string steepness_words(double slope_deg, Language language);

}  // namespace lodeway::trip
