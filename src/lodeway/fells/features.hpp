#pragma once
/// What is drawn on the relief. Each function adds its features in a fixed order.
#include "lodeway/fells/relief.hpp"
#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::fells {

/// A drawn name, moved to where the relief has what it names.
struct NamedPlace {
  std::string_view name;
  earth::GridPoint at;
};

struct Land {
  terrain::Raster<double> heights;
  terrain::Raster<std::uint8_t> wet;  ///< 1 + index of the lake, or 0
  std::vector<LakeBed> lakes;
  Flow flow;                   ///< over the raster's cells, row by row
  std::vector<double> pool_m;  ///< how deep a pit was before it was filled
  std::vector<NamedPlace> summits, saddles;
  std::uint64_t seed = 1;
};

/// Becks and rivers down the drainage, lakes with their shores.
void add_water(const Land& land, mapdata::MapData& map, numeric::Parallel& parallel);
/// Lowers the raster along the becks so that no bed rises towards its mouth by more than 1 m.
void carve_becks(Land& land, const mapdata::MapData& map);
/// A knoll of 22 m where a top is named and the ground only rises past it.
void raise_tops(terrain::Raster<double>& heights);
/// Flattens the ground round the named mosses to one part in twenty-five of its relief.
void lay_mosses(terrain::Raster<double>& heights, std::uint64_t seed);
/// Tops: the highest place for 100 m around, uphill from where they are drawn. Saddles: where the
/// ground rises to two sides and falls to two on a ring of 80, 140 or 200 m, and the water of the
/// two falling sides does not meet within 800 m of its way; within 450 m of where they are drawn.
/// Those the relief lacks are left out.
void find_places(Land& land, numeric::Parallel& parallel);
/// Marsh, woods and their edges, crags and the scree below them.
void add_cover(const Land& land, mapdata::MapData& map, numeric::Parallel& parallel);
/// Intake walls beside the road's valley on pieces of one contour, the walls and fences over the
/// fells.
void add_walls(const Land& land, mapdata::MapData& map);
/// One road, tracks and paths that share their junctions.
[[nodiscard]] std::vector<mapdata::LineFeature> drawn_ways(const Land& land);
/// The ways, with bridges and fords where they meet water; the walls, with gates where ways go
/// through.
void add_ways(const Land& land, std::vector<mapdata::LineFeature> ways, mapdata::MapData& map);
/// A power line with masts; summits, saddles, farms, folds, cairns, names.
void add_works(const Land& land, mapdata::MapData& map);

/// The square root of a sum of squares: unlike std::hypot, the same bits everywhere.
[[nodiscard]] double distance_m(earth::GridPoint a, earth::GridPoint b);
/// The part of a frame from (top, left) to (bottom, right), all four within, and two cells around
/// it where the frame has them: what is not 0 there only has its outlines there.
[[nodiscard]] terrain::Frame window(const terrain::Frame& frame, int top, int left, int bottom,
                                    int right);
/// Closed outlines, at least `least_m2` large, of where a field, of the land's frame or of a window
/// of it, is over one half.
[[nodiscard]] std::vector<std::vector<earth::GridPoint>> outlines(
    const terrain::Raster<float>& field, double least_m2);
/// The highest cell's centre within a square of twice `reach_m`.
[[nodiscard]] earth::GridPoint highest_near(const Land& land, earth::GridPoint p, double reach_m);
[[nodiscard]] double height_near(const Land& land, earth::GridPoint p);

}  // namespace lodeway::fells
