#pragma once
/// Railways and roads closed to walkers that a leg crosses: each is a danger, whoever leads over it.
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// How, as far as the map tells it: by a bridge of what is walked on, or under one of what is crossed.
enum class CrossedHow : unsigned char { unknown, over, under };

struct CrossedBar {
  double at_m = 0;  ///< along the leg from its start, horizontal on the ground
  mapdata::Kind kind = mapdata::Kind::forbidden;  ///< or railway
  CrossedHow how = CrossedHow::unknown;
};

/// A list a leg, by distance; of tracks or carriageways within 60 m the first. Where what is crossed
/// lies in a tunnel nothing is crossed. What a leg follows it does not cross.
[[nodiscard]] std::vector<std::vector<CrossedBar>> crossed_bars(const reckoning::JudgedWay& way,
                                                                const walking::Ground& ground);

}  // namespace lodeway::trip
