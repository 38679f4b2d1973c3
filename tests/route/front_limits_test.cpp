// Which limit stands in the way, beside trying every way one by one.
#include "lodeway/route/front/front_limits.hpp"

#include <gtest/gtest.h>

#include "route/plain_front.hpp"

namespace lodeway::route {
namespace {

FrontProblem problem(const std::vector<Arc>& arcs, std::size_t places, Limits limits) {
  FrontProblem p;
  p.places = places;
  p.arcs = arcs;
  p.to = 1;
  p.limits = limits;
  return p;
}

TEST(FrontLimits, SaysWhichByHowMuchAndWhere) {
  // Two ways: over 2 with a leg that is lost too easily, over 3 a little too slow.
  const std::vector<Arc> arcs{
      {0, 2, {10, 1, 0}}, {2, 1, {10, 7, 0}}, {0, 3, {30, 1, 0}}, {3, 1, {30, 1, 0}}};
  const auto slow = nearest_to_limits(problem(arcs, 4, {.seconds = 50, .leg_loss = 2}));
  ASSERT_TRUE(slow && *slow);
  ASSERT_EQ((*slow)->missed.size(), 1U);
  EXPECT_EQ((*slow)->missed[0].which, Limit::seconds);
  EXPECT_EQ((*slow)->missed[0].wanted, 50);
  EXPECT_EQ((*slow)->missed[0].needed, 60);
  EXPECT_EQ((*slow)->way.arcs, (std::vector<std::uint32_t>{2, 3}));

  const auto unsure = nearest_to_limits(problem(arcs, 4, {.seconds = 20, .leg_loss = 6}));
  ASSERT_TRUE(unsure && *unsure);
  EXPECT_EQ((*unsure)->missed[0].which, Limit::leg_loss);
  EXPECT_EQ((*unsure)->missed[0].needed, 7);
  EXPECT_EQ((*unsure)->missed[0].arc, 1U);
  EXPECT_EQ((*unsure)->way.arcs, (std::vector<std::uint32_t>{0, 1}));
}

TEST(FrontLimits, WhereNoneAloneDoesAllThatIsMissedIsSaid) {
  const std::vector<Arc> arcs{{0, 1, {10, 1, 9}}};
  const auto n = nearest_to_limits(problem(arcs, 2, {.seconds = 5, .hazard = 3}));
  ASSERT_TRUE(n && *n);
  ASSERT_EQ((*n)->missed.size(), 2U);
  EXPECT_EQ((*n)->missed[0].needed, 10);
  EXPECT_EQ((*n)->missed[1].needed, 9);
  EXPECT_EQ((*n)->missed[1].which, Limit::hazard);
}

TEST(FrontLimits, NothingWhereNoWayLeads) {
  const std::vector<Arc> arcs{{1, 0, {10, 1, 9}}};
  const auto n = nearest_to_limits(problem(arcs, 2, {.seconds = 5}));
  ASSERT_TRUE(n);
  EXPECT_FALSE(*n);
}

TEST(FrontLimits, OnRandomGraphsTheLeastIsFound) {
  // The least that one limit must give, by trying all whole numbers with the plain judge.
  const auto limit_of = [](Limits& l, Limit which) -> double& {
    switch (which) {
      case Limit::seconds:
        return l.seconds;
      case Limit::hazard:
        return l.hazard;
      case Limit::leg_seconds:
        return l.leg_seconds;
      case Limit::leg_loss:
        return l.leg_loss;
      default:
        return l.leg_hazard;
    }
  };
  int looked_at = 0, legs = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    SCOPED_TRACE(seed);
    numeric::Random r(seed);
    const RandomGraph g(r, 14, 40, seed % 2 == 0 ? 0.3 : 0.0, 9);
    auto p = g.problem({.seconds = 2.0 + below(r, 16),
                        .hazard = 2.0 + below(r, 16),
                        .leg_loss = 1.0 + below(r, 9),
                        .leg_hazard = 1.0 + below(r, 9)});
    if (!plain_front(p).empty()) continue;
    const auto n = nearest_to_limits(p);
    ASSERT_TRUE(n);
    double least = no_limit;
    for (const auto which : {Limit::seconds, Limit::hazard, Limit::leg_loss, Limit::leg_hazard}) {
      auto looser = p;
      double& limit = limit_of(looser.limits, which);
      const double wanted = limit;
      while (limit < 200 && plain_front(looser).empty()) ++limit;
      if (limit < 200) least = std::min(least, limit / wanted);
    }
    if (least == no_limit) {
      EXPECT_TRUE(!*n || (*n)->missed.size() > 1);
      continue;
    }
    ASSERT_TRUE(*n);
    ASSERT_EQ((*n)->missed.size(), 1U);
    const auto& missed = (*n)->missed[0];
    EXPECT_EQ(missed.needed / missed.wanted, least);
    ++looked_at;
    legs += missed.which != Limit::seconds && missed.which != Limit::hazard;
    p.limits = (*n)->limits;
    EXPECT_FALSE(plain_front(p).empty());
  }
  EXPECT_GT(looked_at, 50);
  EXPECT_GT(legs, 10);
}

}  // namespace
}  // namespace lodeway::route
