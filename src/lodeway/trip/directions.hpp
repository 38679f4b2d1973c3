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
  leave,          ///< what was followed, onto a bearing over open ground
  leave_for_end,  ///< what was followed, for the last metres to the leg's end
  bearing         ///< from one bearing onto another where ways part
};
enum class Flow : unsigned char { none, upstream, downstream };

/// A place where more than one line may be taken for the way.
struct Fork {
  double at_m = 0;  ///< along the leg from its start, horizontal on the ground
  Turn turn = Turn::straight_on;
  units::GridBearing taken;               ///< as sets_out has it
  std::vector<units::GridBearing> wrong;  ///< of the others the same, clockwise from north
  std::vector<units::GridBearing> beside;  ///< of Turn::bearing: of those that set out beside the needle
  bool beside_all_along = false;           ///< or else they turn off it
  bool met = false;  ///< a leg along a line begins beside it, over open ground, and here comes to it
};

struct MainBend {
  double at_m = 0;
  units::GridBearing after;
  mapdata::Side to = mapdata::Side::none;
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
/// between two bearings paths, tracks and roads. Who joins from behind makes none, nor does the leg's
/// own line where it goes on behind its start or end. At the end counts what is within 15 m.
/// Nothing is said where heights are missing.
[[nodiscard]] std::vector<std::vector<Directions>> directions_of(
    std::span<const std::vector<const reckoning::JudgedLeg*>> ways, const walking::Ground& ground);

}  // namespace lodeway::trip
