#pragma once
/// The shape of the land before anything is drawn on it: skeleton, erosion, crags, lakes.
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/fells/flow.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::fells {

/// The land's form, `design::frame()` and a margin cut off again: heights between the hand-drawn
/// lines, carved by running water. Source: implicit stream power, Braun & Willett 2013,
/// Geomorphology 180-181:170-179 (m = 0.5, n = 1), with linear hillslope diffusion (Culling 1960).
[[nodiscard]] terrain::Raster<double> eroded_land(std::uint64_t seed, numeric::Parallel& parallel);

/// Steps the ground down along the crags' lines, on their falling side.
void cut_crags(terrain::Raster<double>& heights, std::uint64_t seed, numeric::Parallel& parallel);

struct LakeBed {
  std::string name;
  double level_m = 0;
  std::vector<std::int32_t> cells;
};
/// Makes the lakes' beds level and their banks rise from them; `wet` marks their cells with
/// 1 + the lake's index in the answer, 0 elsewhere.
[[nodiscard]] std::vector<LakeBed> dig_lakes(terrain::Raster<double>& heights,
                                             terrain::Raster<std::uint8_t>& wet, std::uint64_t seed,
                                             numeric::Parallel& parallel);

/// The raster's cells as nodes of the flow, unshifted.
[[nodiscard]] Nodes nodes_of(const terrain::Raster<double>& heights);

}  // namespace lodeway::fells
