// Ways to choose from where the map is dense and the ground large, two threads: what a trip costs
// must come from the trip, not from the file. `peak_mib` is what the program took at most so far,
// so that it means something only for one benchmark a run.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/threads.hpp"
#include "route/dense_grounds.hpp"

namespace lodeway::route {
namespace {

constexpr int changes = 8;

walking::Request trip(std::initializer_list<earth::GridPoint> points) {
  walking::Request r;
  r.party.visibility = mapdata::Visibility::cloud;
  for (const auto at : points) r.points.push_back({.name = "place", .at = at});
  return r;
}
// On paths and tracks of the map, the last two 12 km apart.
const earth::GridPoint malbun{547303, 5216345}, sareis{547981, 5216043}, steg{545383, 5217487},
    gaflei{543687, 5220914}, south_end{543514, 5213547}, north_end{543541, 5225535};
const auto across = trip({south_end, north_end});
const auto round_trip = trip({malbun, steg, gaflei, sareis});

const earth::GridPoint fallow_bridge{481949, 6050540}, low_hause{481825, 6051645},
    harrik_pike{483055, 6053075}, withen_bridge{483530, 6050380}, ravock_hut{488550, 6054750},
    hosk_bridge{479482, 6050005};
const auto fells_across = trip({hosk_bridge, ravock_hut});
const auto fells_round = trip({fallow_bridge, low_hause, harrik_pike, withen_bridge});

const walking::Ground* country() {
  static const auto made = dense_country();
  return made ? &*made : nullptr;
}
const walking::Ground* fourfold() {
  if (country() == nullptr) return nullptr;
  static const auto made = side_by_side(*country(), 2, 2);
  return &made;
}
const walking::Ground* fells_eightfold() {
  static const auto made = [] {
    auto g = fells::make_skarrow_fells();
    g.kinds = io::built_in_rules().table();
    return with_lines(g, 8);
  }();
  return &made;
}

void report(benchmark::State& state, const Ways& ways) {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  state.counters["ways"] = static_cast<double>(ways.ways.size());
  state.counters["peak_mib"] = static_cast<double>(used.ru_maxrss) / 1024;
}

void opened(benchmark::State& state, const walking::Ground* ground,
            const walking::Request& request) {
  if (ground == nullptr) return state.SkipWithError("the folder of real data is not here");
  tasks::Threads threads;
  for (auto _ : state) {
    const WayFinder anew(*ground);
    const auto ways = anew.find(request, {}, threads);
    if (!ways) return state.SkipWithError(ways.error().what.c_str());
    report(state, *ways);
  }
}

template <class Change>
void changed(benchmark::State& state, const walking::Ground* ground,
             const walking::Request& request, Change&& change) {
  if (ground == nullptr) return state.SkipWithError("the folder of real data is not here");
  tasks::Threads threads;
  const WayFinder finder(*ground);
  if (!finder.find(request, {}, threads)) return state.SkipWithError("no way");
  int turn = 0;
  for (auto _ : state) {
    auto other = request;
    change(other, turn++);
    const auto ways = finder.find(other, {}, threads);
    if (!ways) return state.SkipWithError(ways.error().what.c_str());
    report(state, *ways);
  }
}
void other_start(walking::Request& r, int turn) {
  r.points.front().at =
      r.points.front().at + earth::GridPoint{12.0 * (turn % 4), 12.0 * (turn / 4)};
}
void other_party(walking::Request& r, int turn) {
  r.party.skill = static_cast<walking::Skill>(turn % 3);
  r.party.visibility = static_cast<mapdata::Visibility>(turn / 3 % 4);
}
void other_pace(walking::Request& r, int turn) { r.party.flat_speed_kmh = 3.6 + 0.07 * turn; }

void dense_round_opened(benchmark::State& s) { opened(s, country(), round_trip); }
void dense_across_opened(benchmark::State& s) { opened(s, country(), across); }
void dense_round_start(benchmark::State& s) { changed(s, country(), round_trip, other_start); }
void dense_across_start(benchmark::State& s) { changed(s, country(), across, other_start); }
void dense_round_party(benchmark::State& s) { changed(s, country(), round_trip, other_party); }
void dense_across_party(benchmark::State& s) { changed(s, country(), across, other_party); }
void dense_round_pace(benchmark::State& s) { changed(s, country(), round_trip, other_pace); }
void dense_across_pace(benchmark::State& s) { changed(s, country(), across, other_pace); }
void fourfold_round_opened(benchmark::State& s) { opened(s, fourfold(), round_trip); }
void fourfold_across_opened(benchmark::State& s) { opened(s, fourfold(), across); }
void eightfold_round_opened(benchmark::State& s) { opened(s, fells_eightfold(), fells_round); }
void eightfold_across_opened(benchmark::State& s) { opened(s, fells_eightfold(), fells_across); }

void settings(benchmark::internal::Benchmark* b) {
  b->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();
}
void settings_of_changes(benchmark::internal::Benchmark* b) {
  settings(b);
  b->Iterations(changes);
}
BENCHMARK(dense_round_opened)->Apply(settings);
BENCHMARK(dense_across_opened)->Apply(settings);
BENCHMARK(dense_round_start)->Apply(settings_of_changes);
BENCHMARK(dense_across_start)->Apply(settings_of_changes);
BENCHMARK(dense_round_party)->Apply(settings_of_changes);
BENCHMARK(dense_across_party)->Apply(settings_of_changes);
BENCHMARK(dense_round_pace)->Apply(settings_of_changes);
BENCHMARK(dense_across_pace)->Apply(settings_of_changes);
BENCHMARK(fourfold_round_opened)->Apply(settings);
BENCHMARK(fourfold_across_opened)->Apply(settings);
BENCHMARK(eightfold_round_opened)->Apply(settings);
BENCHMARK(eightfold_across_opened)->Apply(settings);

}  // namespace
}  // namespace lodeway::route
