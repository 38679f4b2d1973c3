#pragma once
/// Places, as plain types: on the ellipsoid, and on a flat metric grid.
#include <cmath>

#include "lodeway/units/bearing.hpp"

namespace lodeway::earth {

/// WGS 84 geographic, degrees, north and east positive.
struct Geographic {
  double lat_deg = 0.0, lon_deg = 0.0;
  friend bool operator==(const Geographic&, const Geographic&) = default;
};

/// A place on the ground's own projected grid, metres. Which grid: earth::MapGrid.
struct GridPoint {
  double east_m = 0.0, north_m = 0.0;
  friend GridPoint operator+(GridPoint a, GridPoint b) {
    return {a.east_m + b.east_m, a.north_m + b.north_m};
  }
  friend GridPoint operator-(GridPoint a, GridPoint b) {
    return {a.east_m - b.east_m, a.north_m - b.north_m};
  }
  friend GridPoint operator*(double k, GridPoint a) { return {k * a.east_m, k * a.north_m}; }
  friend bool operator==(const GridPoint&, const GridPoint&) = default;
};

/// Of the way from (0, 0) to v. A plain root, to 2e-16 of it: metres of a map neither overflow nor
/// vanish (below 1e-154 m it is 0), and std::hypot, which guards against both, is ten times dearer.
[[nodiscard]] inline double length_of(GridPoint v) {
  return std::sqrt(v.east_m * v.east_m + v.north_m * v.north_m);
}

/// Distance on the grid, metres: not the distance on the ground (see MapGrid::scale).
[[nodiscard]] inline double grid_distance_m(GridPoint a, GridPoint b) { return length_of(b - a); }

/// From a to b, clockwise from grid north. a = b gives 0.
[[nodiscard]] inline units::GridBearing grid_bearing(GridPoint a, GridPoint b) {
  return units::GridBearing::degrees(
      units::Angle::radians(std::atan2(b.east_m - a.east_m, b.north_m - a.north_m)).in_degrees());
}

/// The place reached from a by `distance_m` of grid on a grid bearing.
[[nodiscard]] inline GridPoint step(GridPoint a, units::GridBearing b, double distance_m) {
  return {a.east_m + distance_m * std::sin(b.in_radians()),
          a.north_m + distance_m * std::cos(b.in_radians())};
}

}  // namespace lodeway::earth
