#pragma once
/// What is drawn on the relief. Each function adds its features in a fixed order.
#include "lodeway/fells/relief.hpp"
#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::fells {

struct Land {
  terrain::Raster<double> heights;
  terrain::Raster<std::uint8_t> wet;  ///< 1 + index of the lake, or 0
  std::vector<LakeBed> lakes;
  Flow flow;                          ///< over the raster's cells, row by row
  std::uint64_t seed = 1;
};

/// Becks and rivers down the drainage, lakes with their shores.
void add_water(const Land& land, mapdata::MapData& map);
/// Marsh, woods and their edges, crags and the scree below them.
void add_cover(const Land& land, mapdata::MapData& map);
/// One road, tracks and paths that share their junctions, bridges and fords where they meet water.
void add_ways(const Land& land, mapdata::MapData& map);
/// Walls, a fence, a power line with masts; summits, saddles, farms, folds, cairns, names.
void add_works(const Land& land, mapdata::MapData& map);

/// Corner cutting (Chaikin 1974, Computer Graphics and Image Processing 3:346-349), the ends kept.
[[nodiscard]] std::vector<earth::GridPoint> smoothed(std::vector<earth::GridPoint> line, int times);
/// Closed outlines, at least `least_m2` large, of where a field of the land's frame is over one half.
[[nodiscard]] std::vector<std::vector<earth::GridPoint>> outlines(const terrain::Raster<float>& field, double least_m2);
[[nodiscard]] double height_near(const Land& land, earth::GridPoint p);

}  // namespace lodeway::fells
