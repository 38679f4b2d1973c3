#pragma once
/// A place asked for on a known ground: references without their square, and what lies outside.
#include <limits>
#include <string_view>

#include "lodeway/earth/map_grid.hpp"

namespace lodeway::earth {

/// A grid and the part of it that a ground covers, metres; without bounds every place is inside.
struct GridArea {
  MapGrid grid;
  double west_m = -std::numeric_limits<double>::infinity();
  double south_m = -std::numeric_limits<double>::infinity();
  double east_m = std::numeric_limits<double>::infinity();
  double north_m = std::numeric_limits<double>::infinity();
};

/// Everything that parse_place reads, and grid references as cards print them, without the letters
/// of their 100 km square: "819 513", "819513", "8195 5133", "81955 51333" (six, eight or ten
/// figures, without sign or point). Such a reference is the centre of its square, in the one
/// 100 km square of the grid where that lies on the ground. Ten figures may also be easting and
/// northing in metres, where those lie on the ground; six and eight never are. Two whole numbers
/// that are no such reference ("97 18", "970 18") are degrees or metres where those lie on the
/// ground, and otherwise refused with the way to write it: never metres near the grid's origin.
/// Accuracy: as parse_place. Faults: bad_input (as parse_place; a reference without a ground to
/// complete it, that nowhere on the ground has, or that two places of it have: both are named,
/// neither is taken); outside_ground, with how far outside and to which side; outside_validity.
[[nodiscard]] Result<GridPoint> place_on_ground(std::string_view text, const GridArea& ground);
/// The same, for what may reach beyond the ground, such as the corners of an area to avoid.
[[nodiscard]] Result<GridPoint> place_about_ground(std::string_view text, const GridArea& ground);
/// Faults: outside_ground, with how far outside (to 0.1 km; metres below 1 km) and to which side.
[[nodiscard]] Result<void> on_ground(GridPoint at, const GridArea& ground);

}  // namespace lodeway::earth
