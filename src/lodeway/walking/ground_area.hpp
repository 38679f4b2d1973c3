#pragma once
/// How far a ground reaches, for places that are asked for.
#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::walking {

/// A grid and how far heights on it reach.
[[nodiscard]] inline earth::GridArea area_of(const earth::MapGrid& grid, const terrain::Frame& f) {
  return {grid, f.west_m, f.south_m(), f.east_m(), f.north_m};
}
[[nodiscard]] inline earth::GridArea area_of(const Ground& ground) {
  return area_of(ground.grid, ground.elevation.frame());
}

}  // namespace lodeway::walking
