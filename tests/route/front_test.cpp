// The front of time against certainty, beside plain judges: whole-number costs, so that sums are
// exact.
#include "lodeway/route/front.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "route/plain_front.hpp"

namespace lodeway::route {
namespace {

Figures figures(const Front& f) {
  Figures all;
  for (const auto& w : f.ways) all.emplace_back(w.cost.seconds, w.cost.loss);
  return all;
}

Figures found(const FrontProblem& p) {
  const auto f = find_front(p);
  EXPECT_TRUE(f) << f.error().what;
  return f ? figures(*f) : Figures{};
}

/// Is each way really there: arcs that join, and cost what is said, within the limits?
void expect_real(const FrontProblem& p, const Front& f) {
  for (const auto& way : f.ways) {
    LegCost sum;
    std::uint32_t at = p.from;
    std::optional<Carried> carried;
    for (const auto a : way.arcs) {
      ASSERT_EQ(p.arcs[a].from, at);
      const auto step = step_over(p, a, carried ? &*carried : nullptr);
      ASSERT_TRUE(step);
      sum = {sum.seconds + step->cost.seconds, sum.loss + step->cost.loss,
             sum.hazard + step->cost.hazard};
      carried = step->carried;
      at = p.arcs[a].to;
    }
    EXPECT_EQ(at, p.to);
    EXPECT_EQ(sum.seconds, way.cost.seconds);
    EXPECT_EQ(sum.loss, way.cost.loss);
    EXPECT_EQ(sum.hazard, way.cost.hazard);
    EXPECT_LE(sum.seconds, p.limits.seconds);
    EXPECT_LE(sum.hazard, p.limits.hazard);
  }
}

/// Four families, turn by turn: plain, with hazard and limits, with turns, with all of it.
struct Case {
  RandomGraph graph;
  Limits limits;
  Case(std::uint64_t seed, std::size_t most_places, double arcs_a_place)
      : graph(make(seed, most_places, arcs_a_place)) {
    numeric::Random r(seed, 1);
    if (seed % 2 == 1) {
      limits.hazard = 15 + below(r, 60) * (seed % 3 == 0 ? 8 : 1);
      limits.seconds = 40 + below(r, 200) * (seed % 3 == 0 ? 8 : 1);
      if (seed % 8 > 4) limits.leg_loss = 6 + below(r, 10);
      if (seed % 8 == 3) limits.leg_hazard = 6 + below(r, 4);
      if (seed % 8 == 5) limits.leg_seconds = 6 + below(r, 4);
    }
  }
  static RandomGraph make(std::uint64_t seed, std::size_t most_places, double arcs_a_place) {
    numeric::Random r(seed);
    if (seed % 4 > 1 && seed % 8 < 4 && most_places > 20) {  // small and full of turns
      RandomGraph g(r, 6 + below(r, 8), 60 + below(r, 40), 0.6, 9);
      g.most_turns = 3;
      return g;
    }
    const std::size_t places = 2 + below(r, most_places - 1);
    const auto arcs =
        static_cast<std::size_t>(arcs_a_place * (0.5 + r.uniform()) * static_cast<double>(places));
    return {r, places, arcs, seed % 4 > 1 ? 0.3 : 0.0, seed % 3 == 0 ? 100U : 9U};
  }
};

TEST(Front, EqualsPlainLabelCorrectingOn1000RandomGraphs) {
  std::size_t ways = 0, longest = 0, with_choice = 0, through_turns = 0, with_both = 0;
  for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
    SCOPED_TRACE(seed);
    const Case c(seed, 200, 4);
    const auto p = c.graph.problem(c.limits);
    const auto front = find_front(p);
    ASSERT_TRUE(front) << front.error().what;
    ASSERT_EQ(figures(*front), plain_front(p));
    expect_real(p, *front);
    ways += front->ways.size();
    longest = std::max(longest, front->ways.size());
    with_choice += front->ways.size() > 1;
    bool turned = false;
    for (const auto& w : front->ways) {
      for (const auto a : w.arcs) turned = turned || c.graph.turns[p.arcs[a].to] != 0;
    }
    through_turns += turned;
    with_both += turned && c.limits.hazard < no_limit;
  }
  // The graphs are no formality: most leave a choice, many go through turns.
  EXPECT_GT(with_choice, 500);
  EXPECT_GT(through_turns, 100);
  EXPECT_GT(with_both, 30);
  EXPECT_GT(longest, 10);
  std::printf(
      "%zu ways on 1000 fronts, %zu at most, %zu with a choice, %zu through turns (%zu with "
      "limits too)\n",
      ways, longest, with_choice, through_turns, with_both);
}

TEST(Front, EqualsEveryWayOneByOneOnSmallGraphs) {
  std::size_t with_choice = 0;
  for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
    SCOPED_TRACE(seed);
    const Case c(seed, 7, 2.5);
    const auto p = c.graph.problem(c.limits);
    const auto figures = found(p);
    ASSERT_EQ(figures, every_way(p));
    with_choice += figures.size() > 1;
  }
  EXPECT_GT(with_choice, 150);
}

}  // namespace
}  // namespace lodeway::route
