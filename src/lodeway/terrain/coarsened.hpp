#pragma once
/// The same ground in larger cells.
#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

/// Means of `times` x `times` cells (1 or more), from the north-western corner on; what is left
/// over at the eastern and southern rim is dropped. A cell is void where half of its ground or more
/// is not known (see is_height). The same raster for times = 1.
[[nodiscard]] Elevation coarsened(const Elevation& heights, int times);

}  // namespace lodeway::terrain
