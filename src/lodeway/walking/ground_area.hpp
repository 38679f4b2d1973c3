#pragma once
/// How far a ground reaches, for places that are asked for.
#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::walking {

/// The ground's grid and how far its heights reach.
[[nodiscard]] inline earth::GridArea area_of(const Ground& ground) {
  const terrain::Frame& f = ground.elevation.frame();
  return {ground.grid, f.west_m, f.south_m(), f.east_m(), f.north_m};
}

}  // namespace lodeway::walking
