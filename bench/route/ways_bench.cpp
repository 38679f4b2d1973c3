// Ways to choose from, from an opened ground to three judged ways, two threads. `ways` is how many
// were named, `front` how many the whole front holds, `peak_mib` what the program took at most so
// far.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/route/way_finder.hpp"
#include "lodeway/tasks/threads.hpp"
#include "route/mirrored.hpp"

namespace lodeway::route {
namespace {

const walking::Ground& fells_12() {
  static const walking::Ground made = [] {
    auto g = fells::make_skarrow_fells();
    g.kinds = io::built_in_rules().table();
    return g;
  }();
  return made;
}
const walking::Ground& fells_25() {
  static const walking::Ground made = mirrored(fells_12(), 25000);
  return made;
}

walking::Request trip(std::initializer_list<earth::GridPoint> points) {
  walking::Request r;
  r.party.visibility = mapdata::Visibility::cloud;
  for (const auto at : points) r.points.push_back({.name = "place", .at = at});
  return r;
}
const earth::GridPoint fallow_bridge{481949, 6050540}, low_hause{481825, 6051645},
    harrik_pike{483055, 6053075}, withen_bridge{483530, 6050380}, ravock_hut{488550, 6054750},
    hosk_bridge{479482, 6050005};

void report(benchmark::State& state, const Ways& ways) {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  state.counters["ways"] = static_cast<double>(ways.ways.size());
  state.counters["front"] = static_cast<double>(ways.front.size());
  state.counters["peak_mib"] = static_cast<double>(used.ru_maxrss) / 1024;
}

void from_an_opened_ground(benchmark::State& state, const walking::Ground& ground,
                           const walking::Request& request) {
  tasks::Threads threads;
  for (auto _ : state) {
    const WayFinder finder(ground);
    const auto ways = finder.find(request, {}, threads);
    if (!ways) return state.SkipWithError(ways.error().what.c_str());
    report(state, *ways);
  }
}

/// Each time another start and another party; the finder is there.
void changed(benchmark::State& state, const walking::Ground& ground, walking::Request request) {
  tasks::Threads threads;
  const WayFinder finder(ground);
  int turn = 0;
  for (auto _ : state) {
    request.points.front().at.east_m += turn % 2 == 0 ? 40 : -40;
    request.party.skill = turn++ % 2 == 0 ? walking::Skill::novice : walking::Skill::expert;
    const auto ways = finder.find(request, {}, threads);
    if (!ways) return state.SkipWithError(ways.error().what.c_str());
    report(state, *ways);
  }
}

const auto round_trip = trip({fallow_bridge, low_hause, harrik_pike, withen_bridge});
const auto across = trip({hosk_bridge, ravock_hut});

void opened_12_km_round(benchmark::State& s) { from_an_opened_ground(s, fells_12(), round_trip); }
void opened_12_km_across(benchmark::State& s) { from_an_opened_ground(s, fells_12(), across); }
void changed_12_km_round(benchmark::State& s) { changed(s, fells_12(), round_trip); }
void changed_12_km_across(benchmark::State& s) { changed(s, fells_12(), across); }
void opened_25_km_round(benchmark::State& s) { from_an_opened_ground(s, fells_25(), round_trip); }
void opened_25_km_across(benchmark::State& s) { from_an_opened_ground(s, fells_25(), across); }

BENCHMARK(opened_12_km_round)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(opened_12_km_across)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(changed_12_km_round)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(changed_12_km_across)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(opened_25_km_round)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(opened_25_km_across)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

}  // namespace
}  // namespace lodeway::route
