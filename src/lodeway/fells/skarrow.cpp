#include "lodeway/fells/skarrow.hpp"

#include <cassert>
#include <cmath>

#include "lodeway/fells/features.hpp"

namespace lodeway::fells {

walking::Ground make_skarrow_fells(std::uint64_t seed) {
  Land land;
  land.seed = seed;
  land.heights = eroded_land(seed);
  cut_crags(land.heights, seed);
  land.wet = terrain::Raster<std::uint8_t>(land.heights.frame(), 0);
  land.lakes = dig_lakes(land.heights, land.wet, seed);
  for (double& h : land.heights.cells()) h = std::round(h * 100) / 100;
  land.flow = route_water(nodes_of(land.heights), 0.001, land.wet.cells());

  walking::Ground ground;
  ground.name = "Skarrow Fells";
  const auto grid = earth::MapGrid::from_text("EPSG:32629");
  assert(grid);
  ground.grid = *grid;
  ground.elevation = terrain::Elevation(land.heights.frame());
  for (std::size_t k = 0; k < land.heights.cells().size(); ++k) {
    ground.elevation.cells()[k] = static_cast<float>(land.heights.cells()[k]);
  }
  add_water(land, ground.map);
  add_cover(land, ground.map);
  add_ways(land, ground.map);
  add_works(land, ground.map);
  for (const char* what : {"elevation", "features"}) {
    ground.sources.push_back({what, "invented", "Skarrow Fells, invented land", "CC0 1.0", "Invented relief and features, made by Lodeway",
                              "EPSG:32629", "2026-11-25"});
  }
  return ground;
}

}  // namespace lodeway::fells
