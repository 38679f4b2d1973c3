// The front over fixes and legs such as a moor has, beside plain label setting without bounds over
// the same arcs. `ways` is the size of the front, `labels` the part ways that were made.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <queue>

#include "lodeway/numeric/random.hpp"
#include "lodeway/route/front/front.hpp"

namespace lodeway::route {
namespace {

/// Fixes 150 m apart on average in a square, each joined to its eight nearest ones both ways: a
/// third of the legs lead along something (slow, sure), the rest go on a bearing (loss grows with
/// length).
struct Moor {
  std::vector<Arc> arcs;
  std::uint32_t from = 0, to = 0;
  explicit Moor(std::size_t places) {
    numeric::Random r(places);
    const double side = 150 * std::sqrt(static_cast<double>(places));
    std::vector<earth::GridPoint> at;
    for (std::size_t p = 0; p < places; ++p) at.push_back({side * r.uniform(), side * r.uniform()});
    const auto apart = [&](std::size_t a, earth::GridPoint b) {
      return earth::grid_distance_m(at[a], b);
    };
    std::vector<std::uint32_t> order(places);
    for (std::uint32_t p = 0; p < places; ++p) {
      for (std::uint32_t q = 0; q < places; ++q) order[q] = q;
      std::ranges::partial_sort(order, order.begin() + 9, {},
                                [&](std::uint32_t q) { return apart(q, at[p]); });
      for (int k = 1; k <= 8; ++k) {
        const double length = apart(order[static_cast<std::size_t>(k)], at[p]);
        const bool along = r.uniform() < 0.33;
        const double seconds = length * (along ? 1.0 + r.uniform() : 0.8 + 0.6 * r.uniform());
        const double loss = along ? 0.002 + 0.02 * r.uniform()
                                  : 0.02 + 0.3 * r.uniform() * std::pow(length / 500, 2);
        arcs.push_back({p,
                        order[static_cast<std::size_t>(k)],
                        {seconds, loss, r.uniform() < 0.1 ? 0.02 * r.uniform() : 0.0}});
      }
      if (apart(p, {0, 0}) < apart(from, {0, 0})) from = p;
      if (apart(p, {side, side}) < apart(to, {side, side})) to = p;
    }
  }
  static const Moor& of(std::size_t places) {
    static const Moor small(2000), large(10000);
    return places == 2000 ? small : large;
  }
  [[nodiscard]] FrontProblem problem(std::size_t places) const {
    FrontProblem p;
    p.places = places;
    p.arcs = arcs;
    p.from = from;
    p.to = to;
    return p;
  }
};

void count(benchmark::State& state, const Front& front) {
  state.counters["ways"] = static_cast<double>(front.ways.size());
  state.counters["labels"] = static_cast<double>(front.labels);
}

void front(benchmark::State& state) {
  const auto places = static_cast<std::size_t>(state.range(0));
  const auto problem = Moor::of(places).problem(places);
  for (auto _ : state) count(state, *find_front(problem));
}

void front_thinned_by_a_thousandth(benchmark::State& state) {
  const auto places = static_cast<std::size_t>(state.range(0));
  auto problem = Moor::of(places).problem(places);
  problem.least_gain = 1e-3;
  for (auto _ : state) count(state, *find_front(problem));
}

void front_with_limited_hazard(benchmark::State& state) {
  const auto places = static_cast<std::size_t>(state.range(0));
  auto problem = Moor::of(places).problem(places);
  problem.limits.hazard = 0.02;
  problem.least_gain = 1e-3;
  for (auto _ : state) count(state, *find_front(problem));
}

/// Best first by seconds, then loss, the same one figure a place; nothing known of what is to come.
void plain_label_setting(benchmark::State& state) {
  const auto places = static_cast<std::size_t>(state.range(0));
  const auto problem = Moor::of(places).problem(places);
  std::vector<std::vector<const Arc*>> out(places);
  for (const auto& a : problem.arcs) out[a.from].push_back(&a);
  struct Label {
    double seconds, loss;
    std::uint32_t place, parent;
  };
  using Open = std::tuple<double, double, std::uint32_t>;
  std::size_t ways = 0, made = 0;
  for (auto _ : state) {
    std::vector<Label> labels{{0, 0, problem.from, 0}};
    std::priority_queue<Open, std::vector<Open>, std::greater<>> open;
    std::vector<double> least(places, no_limit);
    open.emplace(0.0, 0.0, 0U);
    ways = 0;
    while (!open.empty()) {
      const auto index = std::get<2>(open.top());
      open.pop();
      const Label l = labels[index];
      if (least[l.place] <= l.loss) continue;
      least[l.place] = l.loss;
      if (l.place == problem.to) {
        ++ways;
        continue;
      }
      for (const Arc* a : out[l.place]) {
        const Label next{l.seconds + a->cost.seconds, l.loss + a->cost.loss, a->to, index};
        if (least[a->to] <= next.loss) continue;
        open.emplace(next.seconds, next.loss, static_cast<std::uint32_t>(labels.size()));
        labels.push_back(next);
      }
    }
    made = labels.size();
  }
  state.counters["ways"] = static_cast<double>(ways);
  state.counters["labels"] = static_cast<double>(made);
}

BENCHMARK(plain_label_setting)->Arg(2000)->Arg(10000)->Unit(benchmark::kMillisecond);
BENCHMARK(front)->Arg(2000)->Arg(10000)->Unit(benchmark::kMillisecond);
BENCHMARK(front_thinned_by_a_thousandth)->Arg(2000)->Arg(10000)->Unit(benchmark::kMillisecond);
BENCHMARK(front_with_limited_hazard)->Arg(2000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lodeway::route
