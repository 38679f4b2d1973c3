#pragma once
/// Water that a way crosses without a bridge, and the way round by the nearest one. Method:
/// docs/method/fords.md
#include <optional>
#include <string>
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// Along the bank to a bridge and back on the other side.
struct WayRound {
  std::string bridge;  ///< what it is called
  units::GridBearing towards;
  double away_m = 0;   ///< straight
  double minutes = 0;  ///< more than straight over: at least so many
};

/// *Practice*: a bridge farther off is no way round.
inline constexpr double round_within_m = 2000;

struct Ford {
  double at_m = 0;  ///< along the leg from its start, horizontal on the ground
  earth::GridPoint at;
  std::string water;               ///< "Fallow Beck", "stream", "ford"
  mapdata::Kind kind = mapdata::Kind::stream;  ///< of the water
  bool map_has_bridges = true;     ///< over water, anywhere on it
  std::optional<WayRound> round;   ///< by the nearest bridge over the same water
};

/// A list a leg: where the line crosses a stream or river from one side to the other, with neither a
/// bridge within 15 m nor a line of the map that carries over on one. Ends of legs are crossings
/// too. A leg along water crosses nothing of its own sort. Straight lines of legs, not aims.
[[nodiscard]] std::vector<std::vector<Ford>> fords_of(const reckoning::JudgedWay& way,
                                                      const walking::Ground& ground,
                                                      const walking::Party& party,
                                                      units::Language language);

}  // namespace lodeway::trip
