#pragma once
/// Which summits and which water are seen from a place. Method: docs/method/visibility.md
#include <string>
#include <vector>

#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/terrain/visibility.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::landmarks {

struct InSight {
  mapdata::Kind kind = mapdata::Kind::summit;
  std::string name;       ///< empty when the map gives none
  earth::GridPoint at;    ///< the top; of water the nearest place that is seen
  double height_m = 0;    ///< of the ground there; NaN where it is void
  double distance_m = 0;  ///< on the grid, from the eye
  units::GridBearing bearing;
  double share = 1;  ///< of a lake's surface or a stream's length that is seen, above 0
};

/// From a viewshed of the heights (terrain::viewshed) made from `eye`. A top is seen when its own
/// cell or one of the eight beside it is: a brow may hide the last decimetres; the one stood on,
/// within two cells, is not told. Lakes and seas by the cells whose centres they hold (a smaller
/// one: the cell of its first point); streams and rivers cell by cell along them, all pieces of one
/// name together, those without a name left out. Tops first, then water, each nearest first.
/// Accuracy: one cell.
[[nodiscard]] std::vector<InSight> in_sight(const terrain::Elevation& heights,
                                            const mapdata::MapData& map,
                                            const terrain::Raster<terrain::Seen>& seen,
                                            earth::GridPoint eye);

}  // namespace lodeway::landmarks
