// Ways to choose from, from an opened ground to three judged ways, two threads. `ways` is how many
// were named, `front` how many the whole front holds, `peak_mib` what the program took at most so
// far.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <cmath>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/threads.hpp"
#include "route/mirrored.hpp"

namespace lodeway::route {
namespace {

constexpr int changes = 12;

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

/// The finder has found this trip; then each time `change(request, turn)` of it, turn from 0.
template <class Change>
void changed(benchmark::State& state, const walking::Request& request, Change&& change) {
  tasks::Threads threads;
  const WayFinder finder(fells_12());
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

/// Starts on a spiral about the first place, 20 to 80 m off, none twice.
void other_start(walking::Request& r, int turn) {
  const double angle = 2.4 * turn, away_m = 20 + 5 * (turn % changes);
  r.points.front().at =
      r.points.front().at + earth::GridPoint{away_m * std::sin(angle), away_m * std::cos(angle)};
}
/// Every skill in every visibility.
void other_party(walking::Request& r, int turn) {
  constexpr int skills = 3, visibilities = 4;
  r.party.skill = static_cast<walking::Skill>(turn % skills);
  r.party.visibility = static_cast<mapdata::Visibility>(turn / skills % visibilities);
}
/// Another speed and slope limit each time, so that nothing that is kept of a party serves again.
void other_pace(walking::Request& r, int turn) {
  r.party.flat_speed_kmh = 3.6 + 0.07 * turn;
  r.party.max_slope_deg = 33 + 0.3 * turn;
}

const auto round_trip = trip({fallow_bridge, low_hause, harrik_pike, withen_bridge});
const auto across = trip({hosk_bridge, ravock_hut});

void opened_12_km_round(benchmark::State& s) { from_an_opened_ground(s, fells_12(), round_trip); }
void opened_12_km_across(benchmark::State& s) { from_an_opened_ground(s, fells_12(), across); }
void changed_start_12_km_round(benchmark::State& s) { changed(s, round_trip, other_start); }
void changed_start_12_km_across(benchmark::State& s) { changed(s, across, other_start); }
void changed_party_12_km_round(benchmark::State& s) { changed(s, round_trip, other_party); }
void changed_party_12_km_across(benchmark::State& s) { changed(s, across, other_party); }
void changed_pace_12_km_round(benchmark::State& s) { changed(s, round_trip, other_pace); }
void changed_pace_12_km_across(benchmark::State& s) { changed(s, across, other_pace); }
void opened_25_km_round(benchmark::State& s) { from_an_opened_ground(s, fells_25(), round_trip); }
void opened_25_km_across(benchmark::State& s) { from_an_opened_ground(s, fells_25(), across); }

void settings(benchmark::internal::Benchmark* b) {
  b->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();
}
/// One turn each: a mean over other starts or parties would be another mean.
void settings_of_changes(benchmark::internal::Benchmark* b) {
  settings(b);
  b->Iterations(changes);
}
BENCHMARK(opened_12_km_round)->Apply(settings);
BENCHMARK(opened_12_km_across)->Apply(settings);
BENCHMARK(changed_start_12_km_round)->Apply(settings_of_changes);
BENCHMARK(changed_start_12_km_across)->Apply(settings_of_changes);
BENCHMARK(changed_party_12_km_round)->Apply(settings_of_changes);
BENCHMARK(changed_party_12_km_across)->Apply(settings_of_changes);
BENCHMARK(changed_pace_12_km_round)->Apply(settings_of_changes);
BENCHMARK(changed_pace_12_km_across)->Apply(settings_of_changes);
BENCHMARK(opened_25_km_round)->Apply(settings);
BENCHMARK(opened_25_km_across)->Apply(settings);

}  // namespace
}  // namespace lodeway::route
