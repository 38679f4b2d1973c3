#include "lodeway/route/front/front_bounds.hpp"

#include <queue>
#include <utility>

namespace lodeway::route {

ArcsByPlace arcs_by_place(std::size_t places, std::span<const Arc> arcs, ArcEnd end) {
  const auto place = [end](const Arc& a) { return end == ArcEnd::from ? a.from : a.to; };
  ArcsByPlace by{std::vector<std::uint32_t>(places + 1, 0),
                 std::vector<std::uint32_t>(arcs.size())};
  for (const auto& a : arcs) ++by.start[place(a) + 1];
  for (std::size_t p = 0; p < places; ++p) by.start[p + 1] += by.start[p];
  std::vector<std::uint32_t> next(by.start.begin(), by.start.end() - 1);
  for (std::uint32_t a = 0; a < arcs.size(); ++a) by.arcs[next[place(arcs[a])]++] = a;
  return by;
}

std::vector<double> least_to_go(const FrontProblem& problem, double LegCost::* which) {
  const auto into = arcs_by_place(problem.places, problem.arcs, ArcEnd::to);
  std::vector<double> least(problem.places, no_limit);
  using Item = std::pair<double, std::uint32_t>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
  least[problem.to] = 0;
  heap.emplace(0.0, problem.to);
  while (!heap.empty()) {
    const auto [cost, place] = heap.top();
    heap.pop();
    if (cost > least[place]) continue;
    for (std::uint32_t k = into.start[place]; k < into.start[place + 1]; ++k) {
      const Arc& arc = problem.arcs[into.arcs[k]];
      const double through = cost + arc.cost.*which;
      if (through < least[arc.from] && leg_allowed(arc.cost, problem.limits)) {
        least[arc.from] = through;
        heap.emplace(through, arc.from);
      }
    }
  }
  return least;
}

}  // namespace lodeway::route
