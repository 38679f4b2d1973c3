#pragma once
/// The picture of an overdue party's map. Not for use outside the tasks.
#include "lodeway/io/raster/write_raster.hpp"
#include "lodeway/trip/planned_leg.hpp"
#include "lodeway/walkers/overdue.hpp"

namespace lodeway::tasks::detail {

/// Relief in light grey with contours, shares in one hue from light to dark, the way in black, the
/// first areas with their numbers. Needs a share.
[[nodiscard]] terrain::Raster<io::Colour> overdue_picture(const walking::Ground& ground,
                                                          const trip::PlannedWay& way,
                                                          const walkers::Overdue& overdue);

}  // namespace lodeway::tasks::detail
