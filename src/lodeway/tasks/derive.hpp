#pragma once
/// What is added to a ground once its heights and map are read.
#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// Edges of woods and shores of lakes, from the map's surfaces.
void derive_edges(walking::Ground& ground);

/// Landforms, crests, valley floors, tops and saddles that the map does not have, from the heights
/// (landmarks/relief_features.hpp); all marked so. Faults: cancelled, and then nothing is added.
[[nodiscard]] Result<void> derive_from_relief(walking::Ground& ground,
                                              Progress* progress = nullptr);

/// Where the map shows no standing water at all: dead-flat areas of the heights as lakes (as sea
/// within half a metre of height 0), marked as worked out from relief; no shores, since nobody
/// knows them. Says how many there are. Method: docs/method/flat-water.md. Faults: cancelled.
[[nodiscard]] Result<std::size_t> derive_flat_water(walking::Ground& ground, bool whole_metres,
                                                    Progress* progress = nullptr);

}  // namespace lodeway::tasks
