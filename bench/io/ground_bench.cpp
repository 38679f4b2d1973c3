// How long a ground file takes to write and to open, and a country's map to be read.
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>

#include <benchmark/benchmark.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/osm/osm.hpp"

namespace {

using namespace lodeway;

walking::Ground made(int side) {
  walking::Ground g;
  g.grid = earth::MapGrid::from_text("EPSG:25832").value();
  g.elevation = terrain::Elevation({600'000, 5'200'000, 10, side, side});
  for (int r = 0; r < side; ++r) {
    for (int c = 0; c < side; ++c) {
      g.elevation[r, c] = static_cast<float>(500 + 200 * std::sin(r * 0.01) * std::cos(c * 0.013));
    }
  }
  for (int i = 0; i < 5000; ++i) {
    mapdata::LineFeature line{{mapdata::Kind::path, ""}, {}, mapdata::Side::none, false, false};
    for (int k = 0; k < 20; ++k)
      line.points.push_back({600'000.0 + 10 * k, 5'199'000.0 + i + k % 3});
    g.map.lines.push_back(std::move(line));
  }
  return g;
}

std::string place() {
  return (std::filesystem::temp_directory_path() / "lodeway-bench.gpkg").string();
}

void save(benchmark::State& state) {
  const auto g = made(static_cast<int>(state.range(0)));
  for (auto _ : state) {
    if (!io::save_ground(g, place())) state.SkipWithError("not saved");
  }
  std::filesystem::remove(place());
}
BENCHMARK(save)->Arg(1200)->Arg(4000)->Unit(benchmark::kMillisecond);

void open(benchmark::State& state) {
  if (!io::save_ground(made(static_cast<int>(state.range(0))), place()))
    state.SkipWithError("not saved");
  for (auto _ : state) benchmark::DoNotOptimize(io::open_ground(place()));
  std::filesystem::remove(place());
}
BENCHMARK(open)->Arg(1200)->Arg(4000)->Unit(benchmark::kMillisecond);

void read_a_country(benchmark::State& state) {
  const char* data = std::getenv("LODEWAY_SHARED_DATA");
  const std::string file =
      std::string(data != nullptr ? data : "") + "/osm-liechtenstein/liechtenstein.osm.pbf";
  const io::FeatureRequest request{earth::MapGrid::from_text("EPSG:32632").value(),
                                   {534'000, 5'236'000, 10, 2700, 1600},
                                   &io::built_in_rules(),
                                   {}};
  for (auto _ : state) {
    if (!io::read_osm(file, request)) state.SkipWithError("the file of real data is not here");
  }
}
BENCHMARK(read_a_country)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
