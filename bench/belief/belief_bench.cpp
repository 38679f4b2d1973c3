// From an opened ground: the map of probability, the next questions, the moves; one core.
#include <benchmark/benchmark.h>

#include "belief/lost_party.hpp"
#include "lodeway/belief/moves.hpp"
#include "lodeway/belief/questions.hpp"
#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/tasks/derive.hpp"

namespace {
using namespace lodeway;
using mapdata::Visibility;

const walking::Ground& fells() {
  static const auto made = [] {
    auto g = fells::make_skarrow_fells();
    g.kinds = io::built_in_rules().table();
    (void)tasks::derive_from_relief(g);
    return g;
  }();
  return made;
}
const sight::CuePlanes& planes() {
  static const auto made = [] {
    numeric::Serial serial;
    auto p = sight::cue_planes(fells(), walking::Cover(fells(), walking::Request{}), {}, serial);
    belief::lost::look_from_tops(p, serial);
    return p;
  }();
  return made;
}
const auto robust = sight::perception_of(walking::Skill::practised);

/// Ten tellings, one of them a bearing, about one place.
std::vector<sight::Report> tellings(Visibility v) {
  numeric::Random random(3);
  auto party = belief::lost::make(
      planes(), v, sight::plain_perception_of(walking::Skill::practised), {}, random);
  auto out = party.reports;
  if (out.size() > 10) out.resize(10);
  return out;
}

void cover(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(walking::Cover(fells(), walking::Request{}));
}
void planes_of_12_km(benchmark::State& state) {
  const walking::Cover c(fells(), walking::Request{});
  numeric::Serial serial;
  for (auto _ : state) benchmark::DoNotOptimize(sight::cue_planes(fells(), c, {}, serial));
}
void planes_of_6_km(benchmark::State& state) {
  const walking::Cover c(fells(), walking::Request{});
  numeric::Serial serial;
  const auto w = sight::window_about({484000, 6052000}, 3000);
  for (auto _ : state) benchmark::DoNotOptimize(sight::cue_planes(fells(), c, w, serial));
}
void view_of_a_top(benchmark::State& state) {
  numeric::Serial serial;
  std::int32_t top = 0;
  auto p = planes();
  while (p.things[static_cast<std::size_t>(top)].kind != mapdata::Kind::summit) ++top;
  for (auto _ : state) {
    p.views[static_cast<std::size_t>(top)].clear();
    sight::look_from(p, {&top, 1}, serial);
  }
}
void map_whole_ground(benchmark::State& state) {
  const auto told = tellings(Visibility::clear);
  for (auto _ : state) {
    const auto b = belief::locate(planes(), belief::Anywhere{}, told, robust, Visibility::clear);
    benchmark::DoNotOptimize(belief::summary(b, planes()));
  }
}
void map_window(benchmark::State& state) {
  numeric::Random random(3);
  const auto party =
      belief::lost::make(planes(), Visibility::clear,
                         sight::plain_perception_of(walking::Skill::practised), {}, random);
  for (auto _ : state) {
    const auto b =
        belief::locate(party.planes, party.last, party.reports, robust, Visibility::clear);
    benchmark::DoNotOptimize(belief::summary(b, party.planes));
  }
}
void questions(benchmark::State& state) {
  const auto told = tellings(Visibility::clear);
  const auto b =
      belief::locate(planes(), belief::Anywhere{}, {told.data(), 2}, robust, Visibility::clear);
  const auto s = belief::summary(b, planes());
  for (auto _ : state)
    benchmark::DoNotOptimize(
        belief::next_questions(b, s, planes(), {told.data(), 2}, robust, Visibility::clear));
}
void moves(benchmark::State& state) {
  numeric::Random random(3);
  const auto party =
      belief::lost::make(planes(), Visibility::cloud,
                         sight::plain_perception_of(walking::Skill::practised), {}, random);
  const auto b = belief::locate(party.planes, party.last, party.reports, robust, Visibility::cloud);
  for (auto _ : state)
    benchmark::DoNotOptimize(belief::common_moves(b, party.planes, sight::Chances(),
                                                  walking::Skill::practised, Visibility::cloud));
}
BENCHMARK(cover)->Unit(benchmark::kMillisecond);
BENCHMARK(planes_of_12_km)->Unit(benchmark::kMillisecond);
BENCHMARK(planes_of_6_km)->Unit(benchmark::kMillisecond);
BENCHMARK(view_of_a_top)->Unit(benchmark::kMillisecond);
BENCHMARK(map_whole_ground)->Unit(benchmark::kMillisecond);
BENCHMARK(map_window)->Unit(benchmark::kMillisecond);
BENCHMARK(questions)->Unit(benchmark::kMillisecond);
BENCHMARK(moves)->Unit(benchmark::kMillisecond);
}  // namespace

BENCHMARK_MAIN();
