/// 10 000 parties that really walk a way of twelve legs on the Skarrow Fells (12 km square, 10 m
/// cells), practised, in cloud: by one thread, and by as many as the machine has.
#include <benchmark/benchmark.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/walkers/walked.hpp"
#include "lodeway/walking/course.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::walkers;

struct Scene {
  walking::Ground ground = fells::make_skarrow_fells();
  walking::Request wish;
  walking::Cover cover;
  reckoning::Judge judge;
  sight::CuePlanes planes;
  World world;
  Card card;
  Scene()
      : wish(wish_of(ground)),
        cover(ground, wish),
        judge(ground, wish.party, reckoning::forbidden_of(cover), 0.4),
        planes(planes_of(ground, cover)),
        world(ground, cover, judge, planes) {
    walking::Way way;
    // a zigzag over the moor, 700 m each, ending wherever the map has a point, or nowhere
    GridPoint at{481950, 6051380};
    const GridPoint steps[] = {{500, 490},  {500, 490},  {500, 490},
                               {300, -630}, {600, -360}, {-400, -570}};
    for (int i = 0; i < 12; ++i) {
      const GridPoint to = at + steps[i % 6];
      walking::Leg leg;
      leg.course.line = {at, to};
      leg.figures = walking::figures_of(leg.course, ground, wish.party);
      way.legs.push_back(leg);
      at = to;
    }
    card = card_of(judge, way);
  }
  static walking::Request wish_of(walking::Ground& ground) {
    ground.kinds = io::built_in_rules().table();
    walking::Request r;
    r.party.visibility = mapdata::Visibility::cloud;
    return r;
  }
  static sight::CuePlanes planes_of(const walking::Ground& g, const walking::Cover& cover) {
    tasks::Threads threads;
    return sight::cue_planes(g, cover, std::nullopt, threads);
  }
  static const Scene& get() {
    static const Scene made;
    return made;
  }
};

void run(benchmark::State& state, numeric::Parallel& parallel) {
  const Scene& s = Scene::get();
  WalkRequest request;
  request.trodden = state.range(0) != 0;
  std::size_t lost = 0;
  for (auto _ : state) {
    const auto walked = walk(s.world, s.card, request, parallel);
    lost = walked->lost;
    benchmark::DoNotOptimize(walked);
  }
  state.counters["lost_of_10000"] = static_cast<double>(lost);
}
void one_thread(benchmark::State& state) {
  numeric::Serial serial;
  run(state, serial);
}
void all_threads(benchmark::State& state) {
  tasks::Threads threads;
  run(state, threads);
}
BENCHMARK(one_thread)->Arg(0)->Unit(benchmark::kMillisecond);
BENCHMARK(all_threads)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();
}  // namespace

BENCHMARK_MAIN();
