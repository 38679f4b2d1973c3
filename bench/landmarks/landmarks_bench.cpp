/// All fixes and handrails of the Skarrow Fells (12 km square, 10 m cells), with the kinds that
/// ship.
#include <benchmark/benchmark.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/landmarks/handrails.hpp"

namespace {
using namespace lodeway;

const walking::Ground& fells_ground() {
  static const walking::Ground made = [] {
    auto g = fells::make_skarrow_fells();
    g.kinds = io::built_in_rules().table();
    return g;
  }();
  return made;
}
landmarks::Fixes all_fixes() {
  const auto& g = fells_ground();
  return {g.elevation, g.map, g.kinds};
}

void find_fixes(benchmark::State& state) {
  (void)fells_ground();
  for (auto _ : state) benchmark::DoNotOptimize(all_fixes());
  state.counters["fixes"] = static_cast<double>(all_fixes().all().size());
}
void find_handrails(benchmark::State& state) {
  const auto fixes = all_fixes();
  for (auto _ : state) benchmark::DoNotOptimize(landmarks::handrails(fixes, fells_ground().map));
}
void distinctiveness_of_one(benchmark::State& state) {
  const auto fixes = all_fixes();
  std::uint32_t i = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        fixes.taken_for_another(i, {2500, 400, 1600}, mapdata::Visibility::cloud));
    i = (i + 1) % static_cast<std::uint32_t>(fixes.all().size());
  }
}
BENCHMARK(find_fixes)->Unit(benchmark::kMillisecond);
BENCHMARK(find_handrails)->Unit(benchmark::kMillisecond);
BENCHMARK(distinctiveness_of_one)->Unit(benchmark::kMicrosecond);
}  // namespace

BENCHMARK_MAIN();
