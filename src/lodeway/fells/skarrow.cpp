#include "lodeway/fells/skarrow.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "lodeway/fells/features.hpp"

namespace lodeway::fells {

walking::Ground make_skarrow_fells(std::uint64_t seed) {
  numeric::Serial serial;
  return make_skarrow_fells(seed, serial);
}

walking::Ground make_skarrow_fells(std::uint64_t seed, numeric::Parallel& parallel) {
  Land land;
  land.seed = seed;
  land.heights = eroded_land(seed, parallel);
  raise_tops(land.heights);
  cut_crags(land.heights, seed, parallel);
  lay_mosses(land.heights, seed);
  land.wet = terrain::Raster<std::uint8_t>(land.heights.frame(), 0);
  land.lakes = dig_lakes(land.heights, land.wet, seed, parallel);
  Router router(nodes_of(land.heights), parallel);
  (void)router.route(land.heights.cells(), 0.02, land.wet.cells());
  land.flow = std::move(router).take();
  for (std::size_t k = 0; k < land.flow.filled_m.size(); ++k) {
    double& h = land.heights.cells()[k];
    land.pool_m.push_back(land.flow.filled_m[k] - h);
    h = land.flow.filled_m[k];
  }

  walking::Ground ground;
  ground.name = "Skarrow Fells";
  const auto grid = earth::MapGrid::from_text("EPSG:32629");
  assert(grid);
  ground.grid = *grid;
  add_water(land, ground.map, parallel);
  carve_becks(land, ground.map);
  for (double& h : land.heights.cells()) h = std::round(h * 100) / 100;
  find_places(land, parallel);
  ground.elevation = terrain::Elevation(land.heights.frame());
  for (std::size_t k = 0; k < land.heights.cells().size(); ++k) {
    ground.elevation.cells()[k] = static_cast<float>(land.heights.cells()[k]);
  }
  // The ways' courses ask nothing of the cover.
  std::vector<mapdata::LineFeature> ways;
  parallel.for_each_block(2, [&](std::size_t block) {
    if (block == 0)
      ways = drawn_ways(land);
    else
      add_cover(land, ground.map, parallel);
  });
  add_ways(land, std::move(ways), ground.map);
  add_works(land, ground.map);
  for (const char* what : {"elevation", "features"}) {
    ground.sources.push_back({what, "invented", "Skarrow Fells, invented land", "CC0 1.0",
                              "Invented relief and features, made by Lodeway", "EPSG:32629",
                              "2026-11-25"});
  }
  return ground;
}

}  // namespace lodeway::fells
