// The field over 4000 x 4000 cells, 16 neighbours, beside a plain binary heap on the same ground.
#include <benchmark/benchmark.h>

#include <cmath>

#include "lodeway/route/field/field.hpp"
#include "route/plain_dijkstra.hpp"

namespace lodeway::route {
namespace {

const CostGround& ground() {
  static const CostGround made = [] {
    constexpr int n = 4000;
    CostGround g;
    g.frame = {0, 10.0 * n, 10, n, n};
    g.stride = n + 4;
    g.height.assign(static_cast<std::size_t>(n + 4) * (n + 4), 0);
    g.slowness.assign(g.height.size(), barred_slowness);
    for (int r = 0; r < n; ++r) {
      for (int c = 0; c < n; ++c) {
        double z = 0, size = 250, wave = 0.004;
        for (int octave = 0; octave < 6; ++octave, size *= 0.45, wave *= 2.1) {
          z += size * std::sin(wave * r + 1.3 * octave) * std::cos(wave * 0.9 * c - 0.7 * octave);
        }
        g.height[g.index(r, c)] = static_cast<float>(z);
        g.slowness[g.index(r, c)] = 1;
      }
    }
    return g;
  }();
  return made;
}

void field(benchmark::State& state) {
  const auto& g = ground();
  const PaceTable pace(walking::TimeModel::tobler, 5);
  const Seed seed{g.index(2000, 2000), 0};
  for (auto _ : state)
    benchmark::DoNotOptimize(solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds));
}
BENCHMARK(field)->Unit(benchmark::kMillisecond);

void plain_heap(benchmark::State& state) {
  const auto& g = ground();
  const PaceTable pace(walking::TimeModel::tobler, 5);
  const Seed seed{g.index(2000, 2000), 0};
  for (auto _ : state)
    benchmark::DoNotOptimize(plain_dijkstra(g, pace, nullptr, {&seed, 1}, Direction::from_seeds));
}
BENCHMARK(plain_heap)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lodeway::route

BENCHMARK_MAIN();
