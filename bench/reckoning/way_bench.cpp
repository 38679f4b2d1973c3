/// A judge of one leg and a rehearsal of a twelve-leg way with 10 000 walkers, on the Skarrow Fells
/// (12 km square, 10 m cells), with the kinds that ship.
#include <benchmark/benchmark.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/reckoning/rehearsal.hpp"
#include "lodeway/walking/leg_figures.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::reckoning;

struct Scene {
  walking::Ground ground = fells::make_skarrow_fells();
  walking::Request request;
  walking::Way way;
  Scene() {
    ground.kinds = io::built_in_rules().table();
    request.party.visibility = mapdata::Visibility::cloud;
    // a zigzag of bearing legs over the moor, 700 m each, ending wherever the map has a point, or nowhere
    GridPoint at{481950, 6051380};
    const GridPoint steps[] = {{500, 490}, {500, 490}, {500, 490}, {300, -630}, {600, -360}, {-400, -570}};
    for (int i = 0; i < 12; ++i) {
      const GridPoint to = at + steps[i % 6];
      walking::Leg leg;
      leg.line = {at, to};
      walking::set_figures(leg, ground, request.party);
      way.legs.push_back(leg);
      at = to;
    }
  }
  static const Scene& get() {
    static const Scene made;
    return made;
  }
};

void judge_one_leg(benchmark::State& state) {
  const Scene& s = Scene::get();
  const Judge judge(s.ground, s.request.party, forbidden_of(walking::Cover(s.ground, s.request)), 0.4);
  std::size_t i = 0;
  for (auto _ : state) {
    auto leg = s.way.legs[i++ % s.way.legs.size()];
    Drift carried = judge.at_fix();
    benchmark::DoNotOptimize(judge.judge(leg, carried));
  }
}
void rehearse_twelve_legs_10000_walkers(benchmark::State& state) {
  const Scene& s = Scene::get();
  const Judge judge(s.ground, s.request.party, forbidden_of(walking::Cover(s.ground, s.request)), 0.4);
  numeric::Serial serial;
  for (auto _ : state) benchmark::DoNotOptimize(rehearse(s.ground, judge, s.way, {10000, 1}, serial));
}
BENCHMARK(judge_one_leg)->Unit(benchmark::kMicrosecond);
BENCHMARK(rehearse_twelve_legs_10000_walkers)->Unit(benchmark::kMillisecond);
}  // namespace
