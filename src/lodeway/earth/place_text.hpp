#pragma once
/// Places as people write them, and grid references as cards print them.
#include <string>
#include <string_view>

#include "lodeway/earth/map_grid.hpp"

namespace lodeway::earth {

// clang-format off
/// Understands, in this order:
///   MGRS               "30UVD 27884 80432", "30UVD278804": a square; its CENTRE is meant
///   UTM                "30N 427884 5880432": N or S is the HEMISPHERE; a band letter is refused
///   degrees            "53.0685 -4.0763", "53.0685, -4.0763", "53.0685N 4.0763W", "N53.0685 W4.0763"
///   with minutes       "53 04.11N 4 04.58W", "53°04'06.6\"N 4°04'34.7\"W", "-43 35 42, 170 08 30"
///   the ground's grid  "481800 6050400" (east, north), only when `ground_grid` is given
// clang-format on
/// Without letters: two numbers are degrees when the first is within 90 and the second within 180,
/// else the grid; four are degrees and minutes, six degrees, minutes and seconds, latitude first.
/// Decimals are written with a point; a comma parts latitude and longitude and nothing else.
/// Accuracy: as far as the text goes; 1e-9 degrees. Faults: bad_input, naming the text and what was
/// expected; outside_validity where a grid does not reach.
[[nodiscard]] Result<Geographic> parse_place(std::string_view text,
                                             const MapGrid* ground_grid = nullptr);

/// UTM or UPS of a place: zone 1 to 60, or 0 beyond 84 N and 80 S (UPS).
struct UtmUps {
  int zone = 0;
  bool north = true;
  double east_m = 0, north_m = 0;
  units::Convergence convergence{units::Angle::degrees(0)};
  double scale = 1;
};
/// The standard zone, with the Norway and Svalbard exceptions. Accuracy 5 nm (Karney 2011).
/// Faults: bad_input (latitude beyond 90, not a number).
[[nodiscard]] Result<UtmUps> utm_ups(Geographic at);
/// MGRS with `digits` (0 to 5) an axis, truncated as the standard says: the square that holds the
/// place, to the nearest millimetre. Source: NGA.STND.0037. Faults: as utm_ups.
[[nodiscard]] Result<std::string> mgrs(Geographic at, int digits = 5);

/// What an MGRS reference names: a square. Zone and hemisphere as in UtmUps.
struct MgrsSquare {
  int zone = 0;
  bool north = true;
  GridPoint south_west;
  double side_m = 0;  ///< 100 000 m down to 1 m
  Geographic centre;
};
/// Faults: bad_input, when the text is no MGRS reference of a 100 km square or less.
[[nodiscard]] Result<MgrsSquare> parse_mgrs(std::string_view text);

/// The reference a card prints, within the 100 km square and truncated from the nearest
/// millimetre: `digits` (1 to 5) each way,
/// so three make a square of 100 m: "819 513".
[[nodiscard]] std::string grid_reference(GridPoint at, int digits = 3);
/// grid_reference with three digits each way.
[[nodiscard]] std::string six_figure_reference(GridPoint at);

}  // namespace lodeway::earth
