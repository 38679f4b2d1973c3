#pragma once
/// Single questions to a line of points; who asks many of one line takes Measured (polyline.hpp).
/// All distances are grid metres.
#include <span>

#include "lodeway/earth/place.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::mapdata {

using earth::GridPoint;

/// A place on a line by its distance from the first point, clamped to the ends; and the way back
/// from a place near it (nearest point). Two points at least.
[[nodiscard]] GridPoint point_along(std::span<const GridPoint> line, double along_m);
[[nodiscard]] double along_of(std::span<const GridPoint> line, GridPoint p);
/// Direction of the line there, towards its last point. Accuracy: rounding.
[[nodiscard]] units::GridBearing direction_at(std::span<const GridPoint> line, double along_m);

}  // namespace lodeway::mapdata
