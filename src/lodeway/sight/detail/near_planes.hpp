#pragma once
/// Distance and direction to the nearest line or point of each kind, painted segment by segment.
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/sight/cue_planes.hpp"

namespace lodeway::sight::detail {

/// One plane a kind that occurs in or near the frame. Reach: as far as the kind is seen in clear
/// air, at least 120 m, at most 300 m (buildings and other points likewise).
[[nodiscard]] std::vector<NearPlane> near_planes(const walking::Ground& ground,
                                                 const terrain::Frame& frame,
                                                 numeric::Parallel& parallel);

}  // namespace lodeway::sight::detail
