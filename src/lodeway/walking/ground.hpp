#pragma once
/// Everything known about an area, as a plain value: what a ground file holds once it is opened.
#include <string>
#include <vector>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/terrain/landform.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::walking {

struct Ground {
  std::string name;
  earth::MapGrid grid;
  terrain::Elevation elevation;
  mapdata::MapData map;
  mapdata::KindTable kinds;
  std::vector<mapdata::Source> sources;
  /// What sort of place each cell is; may be empty, and may have larger cells than the heights.
  terrain::Raster<terrain::Landform> landforms;
};

}  // namespace lodeway::walking
