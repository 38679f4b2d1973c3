/// A judge of one leg, of the legs that a planner weighs (straight ones between fixes), and a
/// rehearsal of a twelve-leg way with 10 000 walkers, on the Skarrow Fells (12 km square, 10 m
/// cells), with the kinds that ship.
#include <benchmark/benchmark.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/reckoning/judge/teller.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/walking/course.hpp"

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
    // a zigzag of bearing legs over the moor, 700 m each, ending wherever the map has a point, or
    // nowhere
    GridPoint at{481950, 6051380};
    const GridPoint steps[] = {{500, 490},  {500, 490},  {500, 490},
                               {300, -630}, {600, -360}, {-400, -570}};
    for (int i = 0; i < 12; ++i) {
      const GridPoint to = at + steps[i % 6];
      walking::Leg leg;
      leg.course.line = {at, to};
      leg.figures = walking::figures_of(leg.course, ground, request.party);
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
  const Judge judge(s.ground, s.request.party, forbidden_of(walking::Cover(s.ground, s.request)),
                    0.4);
  std::size_t i = 0;
  for (auto _ : state) {
    const auto& leg = s.way.legs[i++ % s.way.legs.size()];
    Drift carried = judge.at_fix();
    benchmark::DoNotOptimize(Teller(judge).judged(leg, judge.weigh(leg, carried)));
  }
}
/// Straight legs of 80 to 1500 m from every ninth fix to some of those about it: what a planner
/// asks.
std::vector<walking::Leg> between_fixes(const Judge& judge) {
  const auto& fixes = judge.guides().fixes();
  std::vector<walking::Leg> out;
  for (std::uint32_t i = 0; i < fixes.all().size(); i += 9) {
    std::size_t count = 0;
    for (const auto k : fixes.near(fixes[i].at, 1500)) {
      const double length = earth::grid_distance_m(fixes[i].at, fixes[k].at);
      if (length < 80 || ++count % 17 != 0) continue;
      walking::Leg leg;
      leg.course.line = {fixes[i].at, fixes[k].at};
      leg.figures.length_m = length;
      leg.figures.minutes = length / 60;
      out.push_back(std::move(leg));
    }
  }
  return out;
}
/// `us_a_leg`: processor time, the mean over all of them.
template <class Weigh>
void between_fixes(benchmark::State& state, Weigh weigh) {
  const Scene& s = Scene::get();
  const Judge judge(s.ground, s.request.party, forbidden_of(walking::Cover(s.ground, s.request)),
                    0.4);
  const auto legs = between_fixes(judge);
  for (auto _ : state) {
    for (const auto& leg : legs) weigh(judge, leg);
  }
  state.counters["legs"] = static_cast<double>(legs.size());
  state.counters["us_a_leg"] = benchmark::Counter(
      1e-6 * static_cast<double>(legs.size()),
      benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
void assess_legs_between_fixes(benchmark::State& state) {
  between_fixes(state, [](const Judge& judge, const walking::Leg& leg) {
    benchmark::DoNotOptimize(judge.assess(leg, judge.at_fix()));
  });
}
void judge_legs_between_fixes(benchmark::State& state) {
  between_fixes(state, [](const Judge& judge, const walking::Leg& leg) {
    Drift carried = judge.at_fix();
    benchmark::DoNotOptimize(Teller(judge).judged(leg, judge.weigh(leg, carried)));
  });
}
void rehearse_twelve_legs_10000_walkers(benchmark::State& state) {
  const Scene& s = Scene::get();
  const Judge judge(s.ground, s.request.party, forbidden_of(walking::Cover(s.ground, s.request)),
                    0.4);
  numeric::Serial serial;
  for (auto _ : state)
    benchmark::DoNotOptimize(rehearse(s.ground, judge, s.way, {10000, 1}, serial));
}
BENCHMARK(judge_one_leg)->Unit(benchmark::kMicrosecond);
BENCHMARK(assess_legs_between_fixes)->Unit(benchmark::kMillisecond);
BENCHMARK(judge_legs_between_fixes)->Unit(benchmark::kMillisecond);
BENCHMARK(rehearse_twelve_legs_10000_walkers)->Unit(benchmark::kMillisecond);
}  // namespace
