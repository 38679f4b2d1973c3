#pragma once
/// Which way to turn where lines part: what a bearing over a whole leg does not say. Method:
/// docs/method/directions.md
#include <optional>
#include <span>
#include <vector>

#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/units/bearing.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

enum class Turn : unsigned char {
  straight_on,
  keep_left,
  keep_right,
  half_left,
  half_right,
  left,
  right,
  sharp_left,
  sharp_right,
  back,
  leave  ///< what was followed, onto a bearing over open ground
};
enum class Flow : unsigned char { none, upstream, downstream };

/// A place where more than one line may be taken for the way.
struct Fork {
  double at_m = 0;  ///< along the leg from its start, horizontal on the ground
  Turn turn = Turn::straight_on;
  int nth = 1;  ///< of the lines that leave the leg to this side so far, this one counted
  units::GridBearing taken;               ///< as sets_out has it
  std::vector<units::GridBearing> wrong;  ///< of the others the same, clockwise from north
};

struct MainBend {
  double at_m = 0;
  units::GridBearing after;
};

struct Directions {
  std::vector<Fork> forks;   ///< on the way, by distance
  std::optional<Fork> at_end;  ///< where the end is a fork and another leg follows
  std::vector<MainBend> bends;  ///< at most four
  Flow flow = Flow::none;       ///< of a leg along water
  mapdata::Side keeps = mapdata::Side::none;  ///< on which hand the wall, wood or bank is kept
};

/// Which way a line sets out, as one sees it who stands there: over its first 100 m, or to its end;
/// where its first 30 m lead over 20 degrees elsewhere, over those. *practice*
[[nodiscard]] units::GridBearing sets_out(const std::vector<earth::GridPoint>& line);

/// Of legs that are walked one after the other, one each. Distances by the leg's own figures.
/// Lines that lead and look like what is followed, or like what the next leg follows, make a fork;
/// who joins from behind makes none. Nothing is said where heights are missing.
[[nodiscard]] std::vector<std::vector<Directions>> directions_of(
    std::span<const std::vector<const reckoning::JudgedLeg*>> ways, const walking::Ground& ground);

}  // namespace lodeway::trip
