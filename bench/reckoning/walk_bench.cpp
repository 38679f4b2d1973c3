/// Legs of 100 steps, each step with a fresh sighting and a bilinear height look-up, on one core:
/// the vector kernel beside the same in simple C++.
#include <benchmark/benchmark.h>

#include <cmath>

#include "lodeway/reckoning/rehearsal/walk_kernel.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::reckoning;

constexpr std::size_t legs = 16384;

const terrain::Elevation& hills() {
  static const terrain::Elevation made = [] {
    terrain::Elevation e(terrain::Frame{0, 10000, 10, 1000, 1000});
    for (int r = 0; r < 1000; ++r)
      for (int c = 0; c < 1000; ++c)
        e[r, c] = static_cast<float>(400 + 120 * std::sin(0.02 * r) * std::cos(0.017 * c) +
                                     20 * std::sin(0.3 * c));
    return e;
  }();
  return made;
}

template <class Walk>
void legs_of_100_steps(benchmark::State& state, Walk walk_them) {
  std::vector<float> pace(pace_entries);
  for (int i = 0; i < pace_entries; ++i)
    pace[static_cast<std::size_t>(i)] =
        static_cast<float>(0.6 * std::exp(3.5 * std::abs(pace_slope(i) + 0.05)));
  const WalkPlan plan{100, 10, 1, 0.05F, 1.0F, pace};
  for (auto _ : state) {
    Walkers w(legs);
    for (std::size_t i = 0; i < legs; ++i) {
      w.seed(i, 1, i);
      const double b = 0.001 * static_cast<double>(i);
      w.col[i] = w.row[i] = 500;
      w.east[i] = static_cast<float>(std::sin(b));
      w.north[i] = static_cast<float>(std::cos(b));
    }
    walk_them(hills(), plan, w, nullptr);
    benchmark::DoNotOptimize(w.col.data());
  }
  state.counters["legs/s"] =
      benchmark::Counter(static_cast<double>(legs), benchmark::Counter::kIsIterationInvariantRate);
  state.SetLabel(walk_unit());
}
void vector_kernel(benchmark::State& state) { legs_of_100_steps(state, walk); }
void simple_cpp(benchmark::State& state) { legs_of_100_steps(state, walk_plainly); }
BENCHMARK(vector_kernel)->Unit(benchmark::kMillisecond)->ThreadRange(1, 2)->UseRealTime();
BENCHMARK(simple_cpp)->Unit(benchmark::kMillisecond);
}  // namespace

BENCHMARK_MAIN();
