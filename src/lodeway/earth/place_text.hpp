#pragma once
/// Places as people write them, and grid references as cards print them.
#include <string>
#include <string_view>

#include "lodeway/earth/map_grid.hpp"

namespace lodeway::earth {

/// Understands, in this order:
///   MGRS                  "30UVD 27884 80432", "30UVD278804": a square; its CENTRE is meant
///   UTM, UPS              "30N 427884 5880432", "30 U 427884 5880432" refused as ambiguous; N or S
///   only degrees               "53.0685 -4.0763", "53.0685, -4.0763", "53.0685N 4.0763W" degrees
///   and minutes   "53 04.11N 4 04.58W", "53°04'06.6\"N 4°04'34.7\"W" the ground's grid     "481800
///   6050400" (east, north), only when `ground_grid` is given
/// Two plain numbers are degrees when the first is within 90 and the second within 180, else the
/// grid. Accuracy: as far as the text goes; 1e-9 degrees. Faults: bad_input, naming the text and
/// what was expected; outside_validity where a grid does not reach.
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
/// The same, forced into one UTM zone (1 to 60) and hemisphere.
/// Faults: outside_validity over 30 degrees away.
[[nodiscard]] Result<UtmUps> utm_in_zone(Geographic at, int zone, bool north);
/// MGRS with `digits` (0 to 5) an axis, truncated as the standard says: the square that holds the
/// place. Source: NGA.STND.0037. Faults: as utm_ups.
[[nodiscard]] Result<std::string> mgrs(Geographic at, int digits = 5);

/// The reference a card prints: within the 100 km square, 100 m each way: "819 513". Truncated.
[[nodiscard]] std::string six_figure_reference(GridPoint at);

}  // namespace lodeway::earth
