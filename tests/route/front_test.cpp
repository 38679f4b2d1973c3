// The front of time against certainty, beside plain judges: whole-number costs, so that sums are
// exact.
#include "lodeway/route/front/front.hpp"

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

/// A place to place graph by hand: arcs with whole numbers.
FrontProblem by_hand(std::size_t places, std::span<const Arc> arcs, std::uint32_t to) {
  FrontProblem p;
  p.places = places;
  p.arcs = arcs;
  p.to = to;
  return p;
}

TEST(Front, ByHand) {
  // Over 1: quick and unsure; over 2: slow and sure; 0 -> 3 direct: beaten by neither nor worth it.
  const std::vector<Arc> arcs{{0, 1, {10, 4, 0}}, {1, 3, {10, 4, 0}}, {0, 2, {30, 1, 0}},
                              {2, 3, {30, 1, 0}}, {0, 3, {40, 2, 0}}, {0, 3, {40, 8, 0}}};
  const auto f = find_front(by_hand(4, arcs, 3));
  ASSERT_TRUE(f);
  EXPECT_EQ(figures(*f), (Figures{{20, 8}, {40, 2}}));  // 60 for 2 is beaten by 40 for 2
  EXPECT_EQ(f->ways[0].arcs, (std::vector<std::uint32_t>{0, 1}));
  EXPECT_EQ(f->ways[1].arcs, (std::vector<std::uint32_t>{4}));
}

TEST(Front, EqualWaysParallelArcsLoopsAndFreeOnes) {
  const std::vector<Arc> arcs{{0, 0, {0, 0, 0}}, {0, 1, {5, 5, 0}}, {0, 1, {5, 5, 0}},
                              {1, 0, {0, 0, 0}}, {1, 2, {0, 0, 0}}, {2, 1, {0, 0, 0}},
                              {1, 2, {0, 0, 0}}, {0, 2, {5, 5, 0}}};
  const auto f = find_front(by_hand(3, arcs, 2));
  ASSERT_TRUE(f);
  ASSERT_EQ(figures(*f), (Figures{{5, 5}}));
  EXPECT_EQ(f->ways[0].arcs, find_front(by_hand(3, arcs, 2))->ways[0].arcs);
}

TEST(Front, NowhereAndHere) {
  const std::vector<Arc> arcs{{1, 0, {1, 1, 0}}};
  EXPECT_TRUE(find_front(by_hand(2, arcs, 1))->ways.empty());
  const auto here = find_front(by_hand(2, arcs, 0));
  ASSERT_EQ(here->ways.size(), 1U);
  EXPECT_TRUE(here->ways[0].arcs.empty());
  EXPECT_EQ(here->ways[0].cost.seconds, 0);
}

TEST(Front, OfEqualWaysTheLessHazardousWhereHazardHasALimit) {
  const std::vector<Arc> arcs{{0, 1, {5, 5, 3}}, {0, 1, {5, 5, 1}}, {0, 1, {5, 5, 2}}};
  auto p = by_hand(2, arcs, 1);
  p.limits.hazard = 10;
  EXPECT_EQ(find_front(p)->ways.at(0).cost.hazard, 1);
}

TEST(Front, LimitsAreInclusive) {
  const std::vector<Arc> arcs{{0, 1, {10, 8, 3}}, {0, 1, {20, 4, 3}}, {0, 1, {30, 2, 5}}};
  auto p = by_hand(2, arcs, 1);
  p.limits.seconds = 20;
  EXPECT_EQ(found(p), (Figures{{10, 8}, {20, 4}}));
  p.limits = {.hazard = 3};
  EXPECT_EQ(found(p), (Figures{{10, 8}, {20, 4}}));
  p.limits = {.leg_loss = 4};
  EXPECT_EQ(found(p), (Figures{{20, 4}, {30, 2}}));
  p.limits = {.leg_seconds = 10};
  EXPECT_EQ(found(p), (Figures{{10, 8}}));
  p.limits = {.leg_hazard = 2};
  EXPECT_TRUE(found(p).empty());
}

TEST(Front, AWayJustAtALimitIsKeptInSpiteOfRounding) {
  std::vector<Arc> arcs;
  for (std::uint32_t k = 0; k < 100; ++k) arcs.push_back({k, k + 1, {0.1 + 0.001 * k, 0.1, 0.3}});
  auto p = by_hand(101, arcs, 100);
  const auto cost = find_front(p)->ways.at(0).cost;
  p.limits.seconds = cost.seconds;
  p.limits.hazard = cost.hazard;
  EXPECT_EQ(find_front(p)->ways.size(), 1U);
}

TEST(Front, ThinnedKeepsAWayForEachLeftOut) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    const Case c(seed, 100, 4);
    auto p = c.graph.problem(c.limits);
    const auto whole = found(p);
    p.least_gain = 4;
    const auto thinned = found(p);
    EXPECT_EQ(thinned.empty(), whole.empty());
    for (std::size_t i = 1; i < thinned.size(); ++i) {
      EXPECT_GE(thinned[i - 1].second - thinned[i].second, 4);
    }
    for (const auto& w : whole) {
      EXPECT_TRUE(std::ranges::any_of(
          thinned, [&](const auto& t) { return t.first <= w.first && t.second < w.second + 4; }));
    }
    for (const auto& t : thinned) EXPECT_NE(std::ranges::find(whole, t), whole.end());
  }
}

// By induction over the legs of a way left out: at each fix one is kept that is no slower and at
// most the gain less sure than what came there along it.
TEST(Front, ThinnedAtFixesKeepsAWayNearEachLeftOut) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    const Case c(seed, 100, 4);
    auto p = c.graph.problem({});
    const auto whole = find_front(p);
    ASSERT_TRUE(whole);
    p.least_gain_at_fixes = 2;
    const auto thinned = find_front(p);
    ASSERT_TRUE(thinned);
    for (const auto& w : whole->ways) {
      const double most = w.cost.loss + 2 * static_cast<double>(w.arcs.size());
      EXPECT_TRUE(std::ranges::any_of(thinned->ways, [&](const FrontWay& t) {
        return t.cost.seconds <= w.cost.seconds && t.cost.loss <= most;
      }));
    }
  }
}

TEST(Front, SoonIsExactAsLongAsFewPartWaysLead) {
  const Case c(3, 100, 4);
  const auto p = c.graph.problem({});
  const auto whole = find_front(p);
  ASSERT_TRUE(whole);
  ASSERT_GT(whole->ways.size(), 1U);
  const auto same = find_front_soon(p, whole->labels);
  ASSERT_TRUE(same);
  EXPECT_EQ(figures(*same), figures(*whole));
  const auto soon = find_front_soon(p, 1);  // too few for anything: thinned as far as it goes
  ASSERT_TRUE(soon);
  EXPECT_EQ(soon->ways.front().cost.seconds, whole->ways.front().cost.seconds);
}

TEST(Front, LawsOfMoreLegsOfScaleAndOfTheWayBack) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    numeric::Random r(seed);
    RandomGraph g(r, 60, 240, 0, 30);
    const auto before = found(g.problem());
    auto scaled = g;
    for (auto& a : scaled.arcs) a.cost.seconds *= 8;
    auto times8 = before;
    for (auto& f : times8) f.first *= 8;
    EXPECT_EQ(found(scaled.problem()), times8);
    auto back = g;
    for (auto& a : back.arcs) std::swap(a.from, a.to);
    auto p = back.problem();
    std::swap(p.from, p.to);
    EXPECT_EQ(found(p), before);
    auto shuffled = g;
    std::ranges::reverse(shuffled.arcs);
    EXPECT_EQ(found(shuffled.problem()), before);
    g.arcs.push_back({below(r, 60), below(r, 60), {5, 5, 5}});
    const auto after = found(g.problem());
    for (const auto& b : before) {
      EXPECT_TRUE(std::ranges::any_of(
          after, [&](const auto& a) { return a.first <= b.first && a.second <= b.second; }));
    }
  }
}

TEST(Front, TheSameOnEveryRun) {
  const Case c(6, 200, 4);  // with turns
  const auto a = find_front(c.graph.problem(c.limits)), b = find_front(c.graph.problem(c.limits));
  ASSERT_TRUE(a && b);
  ASSERT_EQ(a->ways.size(), b->ways.size());
  EXPECT_EQ(a->labels, b->labels);
  for (std::size_t i = 0; i < a->ways.size(); ++i) EXPECT_EQ(a->ways[i].arcs, b->ways[i].arcs);
}

TEST(Front, AsksOnceFromAFixAndOnlyWhereItMayMatter) {
  // The arcs of a long detour cannot be on the front once the bounds are known: they are not asked.
  std::vector<Arc> arcs{{0, 1, {1, 1, 0}, true},
                        {1, 2, {1, 1, 0}, true},
                        {0, 3, {90, 9, 0}, true},
                        {3, 2, {90, 9, 0}, true}};
  auto p = by_hand(4, arcs, 2);
  p.limits.seconds = 100;
  std::vector<int> asked(4, 0);
  p.ask = [&](std::uint32_t a, const Carried* c) {
    EXPECT_EQ(c, nullptr);
    ++asked[a];
    return Asked{arcs[a].cost, {}};
  };
  const auto f = find_front(p);
  ASSERT_TRUE(f);
  EXPECT_EQ(asked, (std::vector<int>{1, 1, 0, 0}));
  EXPECT_EQ(f->asked, 2U);
}

TEST(Front, FaultsAreSaid) {
  const std::vector<Arc> arcs{{0, 1, {1, 1, 0}}};
  const auto code = [](const FrontProblem& p) { return find_front(p).error().code; };
  for (const LegCost& bad : {LegCost{-1, 0, 0}, LegCost{0, NAN, 0}, LegCost{0, 0, no_limit}}) {
    const std::vector<Arc> wrong{{0, 1, bad}};
    EXPECT_EQ(code(by_hand(2, wrong, 1)), FaultCode::bad_input);
  }
  EXPECT_EQ(code(by_hand(1, arcs, 0)), FaultCode::bad_input);  // the arc leads out of the places
  EXPECT_EQ(code(by_hand(2, arcs, 2)), FaultCode::bad_input);
  auto p = by_hand(2, arcs, 1);
  p.limits.seconds = NAN;
  EXPECT_EQ(code(p), FaultCode::bad_input);
  p = by_hand(2, arcs, 1);
  p.least_gain = -1;
  EXPECT_EQ(code(p), FaultCode::bad_input);
  const std::vector<std::uint8_t> turns{0, 1, 0};
  p = by_hand(3, arcs, 2);
  p.turns = turns;  // an arc into a turn that does not ask
  EXPECT_EQ(code(p), FaultCode::bad_input);
  const std::vector<Arc> asking{{0, 1, {1, 1, 0}, true}};
  EXPECT_EQ(code(by_hand(2, asking, 1)), FaultCode::bad_input);  // nobody answers
  p = by_hand(2, asking, 1);
  p.ask = [](std::uint32_t, const Carried*) { return Asked{{0.5, 1, 0}, {}}; };
  EXPECT_EQ(code(p), FaultCode::bad_input);  // below its bound
  const std::vector<Arc> into_turn{{0, 1, {1, 1, 0}, true}, {1, 2, {1, 1, 0}, true}};
  p = by_hand(3, into_turn, 2);
  p.turns = turns;
  p.ask = [](std::uint32_t, const Carried*) { return Asked{{1, 1, 0}, {}}; };
  EXPECT_EQ(code(p), FaultCode::bad_input);  // nothing carried at the turn
}

TEST(Front, StopsWhenToldAndWhenItWouldNotFit) {
  std::vector<Arc> arcs;  // each step doubles the front
  for (std::uint32_t k = 0; k < 14; ++k) {
    const double much = std::ldexp(1, static_cast<int>(k));
    arcs.push_back({k, k + 1, {much, 0, 0}});
    arcs.push_back({k, k + 1, {0, much, 0}});
  }
  auto p = by_hand(15, arcs, 14);
  ASSERT_EQ(find_front(p)->ways.size(), 16384U);
  p.most_labels = 1000;
  EXPECT_EQ(find_front(p).error().code, FaultCode::too_large);
  p = by_hand(15, arcs, 14);
  p.go_on = [] { return false; };
  EXPECT_EQ(find_front(p).error().code, FaultCode::cancelled);
}

}  // namespace
}  // namespace lodeway::route
