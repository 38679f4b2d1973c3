// A map tile, warm (kept) and cold (its block of 16 drawn), and a dragged leg. Take the times for
// one tile: warm under 50 ms is the aim; cold counts one block for its 16 tiles.
#include <benchmark/benchmark.h>

#include "apps/server/store/tiles.hpp"
#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/tasks/quick_legs.hpp"

namespace {

using namespace lodeway;

const server::OpenGround& fells() {
  static const auto made = [] {
    auto out = std::make_unique<server::OpenGround>();
    out->id = out->stamp = "bench";
    out->ground = fells::make_skarrow_fells();
    out->ground.kinds = io::built_in_rules().table();
    out->pyramid = tasks::tile_pyramid(out->ground.elevation.frame());
    return out;
  }();
  return *made;
}

int level_of_the_sheet() { return static_cast<int>(fells().pyramid.metres_per_px.size()) - 4; }

void tile_warm(benchmark::State& state) {
  server::Tiles tiles;
  const int level = level_of_the_sheet();
  benchmark::DoNotOptimize(tiles.tile(fells(), level, 3, 3, {}));
  for (auto _ : state) benchmark::DoNotOptimize(tiles.tile(fells(), level, 3, 3, {}));
}
BENCHMARK(tile_warm)->Unit(benchmark::kMillisecond);

/// Level counted back from the sheet's 1:25 000: 0 it, 1 half of it, and so on.
void block_cold(benchmark::State& state) {
  const int level = level_of_the_sheet() - static_cast<int>(state.range(0));
  const tasks::TileStyle style{static_cast<int>(state.range(1)), false, false};
  (void)fells();
  for (auto _ : state)
    benchmark::DoNotOptimize(
        tasks::draw_tile_block(fells().ground, fells().pyramid, level, 0, 0, style));
  state.counters["ms_a_tile"] =
      benchmark::Counter(16e-3 * static_cast<double>(state.iterations()),
                         benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(block_cold)
    ->Args({0, 1})
    ->Args({0, 2})
    ->Args({1, 1})
    ->Args({2, 1})
    ->Unit(benchmark::kMillisecond);

void dragged_leg(benchmark::State& state) {
  trip::Trip trip;
  trip.date = std::chrono::year{2026} / 11 / 14;
  trip.start = std::chrono::minutes{9 * 60};
  trip.request.points = {{"a", {482595, 6052025}}, {"b", {483055, 6053075}}};
  const auto legs = tasks::QuickLegs::make(fells().ground, trip, fells().finder().fixes());
  for (auto _ : state) benchmark::DoNotOptimize((*legs)->legs(trip.request.points));
}
BENCHMARK(dragged_leg)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
