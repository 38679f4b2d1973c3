// What is carried to turns: its order, and that the search loses nothing by it.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "route/plain_front.hpp"

namespace lodeway::route {
namespace {

using earth::GridPoint;

const reckoning::Errors all_errors{.bearing_sigma = 0.03,
                                   .sighting_sigma = 0.04,
                                   .sighting_every_m = 100,
                                   .distance_sigma = 0.05,
                                   .distance_random = 0.5,
                                   .compass_sigma = 0.03,
                                   .stride_sigma = 0.04};

void go(reckoning::Drift& drift, GridPoint d) {
  drift.add_leg(earth::grid_bearing({0, 0}, {d.east_m, d.north_m}), std::hypot(d.east_m, d.north_m));
}
Carried along(const reckoning::Errors& errors, std::initializer_list<GridPoint> steps) {
  Carried c{reckoning::Drift(errors, 0.01, {25, 0, 25}), static_cast<int>(steps.size())};
  for (const auto d : steps) go(c.drift, d);
  return c;
}

double least_axis(const numeric::Covariance& c) {
  return 0.5 * (c.xx + c.yy) - std::hypot(0.5 * (c.xx - c.yy), c.xy);
}

TEST(Carried, WhatIsNoMoreStaysNoMoreWhereverThePartyTurns) {
  numeric::Random r(5);
  const auto random_step = [&](double size) {
    return GridPoint{size * (r.uniform() - 0.5), size * (r.uniform() - 0.5)};
  };
  int ordered = 0, with_more_turns = 0;
  for (int trial = 0; trial < 4000; ++trial) {
    const GridPoint net = random_step(2000), side = random_step(600), other = random_step(1500);
    auto a = along(all_errors, {side, net - side});
    auto b = trial % 2 == 0 ? along(all_errors, {other, net - other}) : along(all_errors, {net});
    with_more_turns +=
        a.turns > b.turns && least_axis(b.drift.total() + -1.0 * a.drift.total()) > 1;
    a.turns = b.turns;
    if (!carries_no_more(a, b)) continue;
    ++ordered;
    EXPECT_FALSE(carries_no_more(b, a));
    for (int leg = 0; leg < 4; ++leg) {
      const auto d = random_step(1500);
      go(a.drift, d);
      go(b.drift, d);
      EXPECT_GT(least_axis(b.drift.total() + -1.0 * a.drift.total()), -1e-6);
    }
  }
  EXPECT_GT(ordered, 500);
  EXPECT_GT(with_more_turns, 100);
}

TEST(Carried, OrderIsThatOfPositiveSemidefiniteDifferences) {
  const auto at = [](numeric::Covariance c) {
    return Carried{reckoning::Drift(all_errors, 0, c), 1};
  };
  EXPECT_TRUE(carries_no_more(at({4, 1, 9}), at({4, 1, 9})));
  EXPECT_TRUE(carries_no_more(at({4, 0, 9}), at({5, 0, 9})));
  EXPECT_FALSE(carries_no_more(at({4, 0, 9}), at({5, 0, 8})));  // a longer axis across
  // Eigenvalues of the difference [[1, 2], [2, 1]]: 3 and -1.
  EXPECT_FALSE(carries_no_more(at({4, 0, 4}), at({5, 2, 5})));
  // [[2, 2], [2, 2]]: 4 and 0.
  EXPECT_TRUE(carries_no_more(at({4, 0, 4}), at({6, 2, 6})));
  auto more = at({4, 0, 4});
  more.turns = 2;
  EXPECT_FALSE(carries_no_more(more, at({5, 0, 5})));
  EXPECT_TRUE(
      carries_no_more(at({4, 0, 4}), Carried{reckoning::Drift(all_errors, 0, {4, 0, 4}), 2}));
}

TEST(Carried, WhoHasComeFromElsewhereIsNotCompared) {
  // b carries more where it stands, but its shared errors undo themselves on the way back: less at
  // the end.
  const reckoning::Errors shared{.compass_sigma = 0.05, .stride_sigma = 0.05};
  auto a = along(shared, {{300, 0}}), b = along(shared, {{1000, 0}});
  EXPECT_GT(least_axis(b.drift.total() + -1.0 * a.drift.total()), 0);
  EXPECT_FALSE(carries_no_more(a, b));
  go(a.drift, {-1000, 5});
  go(b.drift, {-1000, 5});
  EXPECT_LT(b.drift.total().trace(), a.drift.total().trace());
}

/// Places in the plane; into a turn an arc costs its bound, out of one the trace carried is lost
/// too.
struct ByHand {
  std::vector<Arc> arcs;
  std::vector<GridPoint> at;
  std::vector<std::uint8_t> turns;
  reckoning::Errors errors = all_errors;
  int most_turns = 2;
  std::vector<double> more_hazard = std::vector<double>(16, 0.0);  ///< by arc, above its bound

  [[nodiscard]] FrontProblem problem() const {
    FrontProblem p;
    p.places = at.size();
    p.arcs = arcs;
    p.turns = turns;
    p.to = 1;
    p.ask = [this](std::uint32_t i, const Carried* brought) -> std::optional<Asked> {
      const Arc& arc = arcs[i];
      Carried next = brought ? *brought : Carried{reckoning::Drift(errors, 0), 0};
      go(next.drift, at[arc.to] - at[arc.from]);
      Asked asked{arc.cost, {}};
      asked.cost.hazard += more_hazard[i];
      if (turns[arc.to] == 0) {
        asked.cost.loss += std::floor(next.drift.total().trace() / 100);
        return asked;
      }
      if (++next.turns > most_turns) return std::nullopt;
      asked.carried = next;
      return asked;
    };
    return p;
  }
  [[nodiscard]] std::vector<std::vector<std::uint32_t>> ways(Limits limits = {}) const {
    auto p = problem();
    p.limits = limits;
    const auto f = find_front(p);
    EXPECT_TRUE(f);
    Figures found;
    std::vector<std::vector<std::uint32_t>> all;
    for (const auto& w : f->ways) {
      all.push_back(w.arcs);
      found.emplace_back(w.cost.seconds, w.cost.loss);
    }
    EXPECT_EQ(found, every_way(p));
    return all;
  }
};

using Ways = std::vector<std::vector<std::uint32_t>>;

TEST(CarriedSearch, KeepsTheOneThatComesFromElsewhere) {
  ByHand g;  // start 0, end 1, fixes 2 and 3, turn 4
  g.at = {{350, 500}, {0, 5}, {700, 0}, {0, 0}, {1000, 0}};  // legs to both fixes are alike
  g.turns = {0, 0, 0, 0, 1};
  g.errors = {.compass_sigma = 0.05, .stride_sigma = 0.05};
  g.arcs = {{0, 2, {1, 0, 0}, true},
            {0, 3, {9, 0, 0}, true},
            {2, 4, {1, 0, 0}, true},
            {3, 4, {1, 0, 0}, true},
            {4, 1, {1, 0, 0}, true}};
  EXPECT_EQ(g.ways(), (Ways{{0, 2, 4}, {1, 3, 4}}));
}

TEST(CarriedSearch, KeepsTheOneWithATurnLeft) {
  ByHand
      g;  // start 0, end 1, turns 2, 3, 4; over 2 less is carried to 3, but no turn is left for 4
  g.at = {{0, 0}, {2000, 300}, {400, 100}, {1000, 0}, {1500, -200}};
  g.turns = {0, 0, 1, 1, 1};
  g.errors = {.bearing_sigma = 0.05, .distance_sigma = 0.05};
  g.arcs = {{0, 2, {1, 0, 0}, true},
            {2, 3, {1, 0, 0}, true},
            {0, 3, {3, 0, 0}, true},
            {3, 4, {1, 0, 0}, true},
            {4, 1, {1, 0, 0}, true}};
  EXPECT_EQ(g.ways(), (Ways{{2, 3, 4}}));
}

TEST(CarriedSearch, KeepsTheOneWithHazardLeft) {
  ByHand
      g;  // two arcs into the turn 2: quick and exposed, or slower; onwards takes more than is said
  g.at = {{0, 0}, {600, 600}, {600, 0}};
  g.turns = {0, 0, 1};
  g.arcs = {{0, 2, {1, 0, 5}, true}, {0, 2, {2, 0, 1}, true}, {2, 1, {1, 0, 0}, true}};
  g.more_hazard[2] = 3;
  EXPECT_EQ(g.ways({.hazard = 5}), (Ways{{1, 2}}));
  EXPECT_EQ(g.ways(), (Ways{{0, 2}}));
}

TEST(CarriedSearch, DoesNotGoOnFromWhatIsBeaten) {
  ByHand g;  // eight arcs into the turn, each slower than the one before and no better
  g.at = {{0, 0}, {600, 600}, {600, 0}};
  g.turns = {0, 0, 1};
  for (int k = 0; k < 8; ++k) g.arcs.push_back({0, 2, {1.0 + k, 0, 0}, true});
  g.arcs.push_back({2, 1, {1, 0, 0}, true});
  const auto f = find_front(g.problem());
  ASSERT_TRUE(f);
  EXPECT_EQ(f->ways.size(), 1U);
  EXPECT_EQ(f->asked, 9U);
}

}  // namespace
}  // namespace lodeway::route
