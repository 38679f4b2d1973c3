#pragma once
/// Lines joined end to end where the eye takes them for one.
#include <cstddef>
#include <span>
#include <vector>

#include "lodeway/earth/place.hpp"

namespace lodeway::mapdata {

struct Stroke {
  std::vector<earth::GridPoint> points;
  std::vector<std::size_t> parts;  ///< indices of the lines joined, in order
};

/// Where ends of lines lie on the same point, they are joined two by two, the straightest first, if
/// the stroke turns there by at most `most_turn_deg` (below 180) between chords of `reach_m`. Every
/// line is in one stroke; a stroke runs the way of its earliest line; strokes are ordered by that
/// line. Lines need two points. Source: good continuation (Thomson & Richardson 1999, Proc. 19th
/// Int. Cartographic Conf.).
[[nodiscard]] std::vector<Stroke> strokes(std::span<const std::vector<earth::GridPoint>> lines,
                                          double most_turn_deg, double reach_m);

}  // namespace lodeway::mapdata
