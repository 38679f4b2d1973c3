// 5000 lines of 20 segments of about 50 m on 20 km x 20 km: a densely mapped upland.
#include <cmath>

#include <benchmark/benchmark.h>

#include "lodeway/mapdata/network.hpp"
#include "lodeway/numeric/random.hpp"

namespace lodeway::mapdata {
namespace {

const std::vector<LineFeature>& lines() {
  static const auto made = [] {
    numeric::Random random(1);
    std::vector<LineFeature> out(5000);
    for (auto& l : out) {
      GridPoint p{20000 * random.uniform(), 20000 * random.uniform()};
      double heading = 6.28 * random.uniform();
      for (int k = 0; k <= 20; ++k) {
        l.points.push_back(p);
        heading += 0.3 * random.normal();
        p = p + 50.0 * GridPoint{std::sin(heading), std::cos(heading)};
      }
    }
    return out;
  }();
  return made;
}

void make_index(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(LineIndex(lines()));
}
void near_100_m(benchmark::State& state) {
  const LineIndex index(lines());
  numeric::Random random(2);
  for (auto _ : state)
    benchmark::DoNotOptimize(index.near({20000 * random.uniform(), 20000 * random.uniform()}, 100));
}
void cross_1_km(benchmark::State& state) {
  const LineIndex index(lines());
  numeric::Random random(3);
  for (auto _ : state) {
    const GridPoint p{20000 * random.uniform(), 20000 * random.uniform()};
    benchmark::DoNotOptimize(index.crossings(p, p + GridPoint{700, 700}));
  }
}
void make_network(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(Network(lines(), [](const LineFeature&) { return true; }));
}
BENCHMARK(make_index)->Unit(benchmark::kMillisecond);
BENCHMARK(near_100_m)->Unit(benchmark::kMicrosecond);
BENCHMARK(cross_1_km)->Unit(benchmark::kMicrosecond);
BENCHMARK(make_network)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lodeway::mapdata

BENCHMARK_MAIN();
