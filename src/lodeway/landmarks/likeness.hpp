#pragma once
/// What passes for what. Method: docs/method/landmarks.md
#include <array>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::landmarks {

/// How easily one kind passes for another when it is met alone: 1 for the same, 0.4 within a group,
/// else 0; *practice* groups (paths; runnel to river; walls, fences, hedges; houses; summits and
/// cairns).
[[nodiscard]] double looks_alike(mapdata::Kind seen, mapdata::Kind wanted);

/// How far from a top the ground still leads up to it from all sides: uphill by more than 3 in 100,
/// at most `most_m`. Who comes within it finds the top by going up, whatever can be seen. 0 where
/// the heights around are not known.
[[nodiscard]] double leads_up_within(const terrain::Elevation& heights, earth::GridPoint top,
                                     double most_m = 150);

}  // namespace lodeway::landmarks
