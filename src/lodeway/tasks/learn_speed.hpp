#pragma once
/// Speed over slope: what was measured of a party beside what the table and the learnt figure say.
#include <vector>

#include "lodeway/tasks/learn.hpp"

namespace lodeway::tasks {

/// Slope in degrees along the direction of travel, uphill positive; speed over the horizontal
/// distance while moving, rests not counted.
struct SpeedAt {
  double slope_deg = 0, kmh = 0;
};

struct Speeds {
  std::vector<SpeedAt> pieces;  ///< of all days, some 500 m each, at the mean slope of each
  std::vector<SpeedAt> table;   ///< every degree from -curve_deg to curve_deg
  std::vector<SpeedAt> learnt;  ///< likewise; empty while less than an hour was walked
};
inline constexpr int curve_deg = 45;
inline constexpr double curve_flat_kmh = 4;  ///< what the pieces are held against: WalkedPiece

/// The curves are the time model of `learnt.basis.party` on good path at curve_flat_kmh, by the
/// table's centre and by the learnt one (refused or not). A piece that goes up and down again
/// stands at its mean slope, and is slower there than even ground would be. Accuracy: exact.
[[nodiscard]] Speeds speeds_of(const Learnt& learnt);

}  // namespace lodeway::tasks
