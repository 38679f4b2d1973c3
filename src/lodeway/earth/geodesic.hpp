#pragma once
/// Distances and directions on the WGS 84 ellipsoid.
/// Source: Karney 2013, Algorithms for geodesics, J. Geodesy 87:43-55 (through GeographicLib).
#include "lodeway/earth/place.hpp"

namespace lodeway::earth {

struct Geodesic {
  double distance_m = 0;
  units::TrueBearing at_start, at_end;  ///< both in the direction of travel
};

/// The shortest line between two places. Accuracy 15 nm. Latitudes within 90 (asserted).
[[nodiscard]] Geodesic geodesic(Geographic from, Geographic to);
/// The place reached. Accuracy 15 nm.
[[nodiscard]] Geographic travel(Geographic from, units::TrueBearing bearing, double distance_m);

}  // namespace lodeway::earth
