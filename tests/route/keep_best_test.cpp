/// Which judged ways a name may be given to, by hand.
#include "lodeway/route/choose/keep_best.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace {
using namespace lodeway;
using route::NamedWay;

/// A way of these legs' certainties; hazard on the first.
NamedWay way(double minutes, std::vector<double> certain, double hazard = 0) {
  NamedWay out;
  out.minutes = out.expected_min = minutes;
  for (const double c : certain) {
    out.way.legs.emplace_back().judged.certainty = c;
    out.way.certainty *= c;
  }
  out.way.legs.front().judged.hazard_probability = hazard;
  return out;
}

std::vector<double> minutes_of(const std::vector<NamedWay>& ways) {
  std::vector<double> out;
  for (const auto& w : ways) out.push_back(w.minutes);
  return out;
}
using Minutes = std::vector<double>;
const route::Wishes wishes;  // 0.9 of each leg, 0.05 of hazard
const route::Missed both{true, true};

TEST(Breach, AddsUpWhatTheLegsMiss) {
  EXPECT_NEAR(route::breach_of(way(1, {0.95, 0.8, 0.7}).way, wishes), 0.3, 1e-12);
  EXPECT_NEAR(route::breach_of(way(1, {0.95}, 0.25).way, wishes), 0.2, 1e-12);
  EXPECT_EQ(route::breach_of(way(1, {0.9}, 0.055).way, wishes), 0);  // under a hundredth over
}

TEST(KeepBest, WhereLimitsCanBeKeptTheyAre) {
  std::vector<NamedWay> ways{way(60, {0.85}), way(100, {0.95}), way(110, {0.99}), way(120, {0.97})};
  keep_best(ways, std::nullopt, {}, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{100, 110}));
}

TEST(KeepBest, TheLeastTimeWayMayKeepThemToo) {
  std::vector<NamedWay> ways{way(100, {0.95}), way(110, {0.99})};
  keep_best(ways, way(98, {0.96}), {}, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{98, 110}));
}

// No way keeps the certainty, some stay off barred ground: then all do, however long, the
// least-time way with them.
TEST(KeepBest, WhatCanBeKeptOfTheLimitsIs) {
  const route::Missed certainty{.certainty = true};
  std::vector<NamedWay> ways{way(150, {0.6}, 0.5), way(300, {0.88})};
  keep_best(ways, way(140, {0.4}, 0.6), certainty, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{300}));
  ways = {way(150, {0.85}, 0.4), way(300, {0.88}, 0.4)};  // none does
  keep_best(ways, std::nullopt, certainty, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{150, 300}));
}

// Longer and less sure than the least time, and it breaks no less: nobody walks that.
TEST(KeepBest, TheLeastTimeWayIsNotBeaten) {
  std::vector<NamedWay> ways{way(130, {0.5, 0.9}), way(140, {0.8, 0.9})};
  keep_best(ways, way(100, {0.75, 0.9}), both, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{100, 140}));
}

// It goes over barred ground: one that does so less is named though it is longer and less sure,
// as long as it is not over half as long again.
TEST(KeepBest, LessBarredGroundIsWorthHalfAsLongAgain) {
  std::vector<NamedWay> ways{way(140, {0.8}, 0.3)};
  keep_best(ways, way(100, {0.89}, 0.95), both, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{140}));
  ways = {way(160, {0.8}, 0.3)};
  keep_best(ways, way(100, {0.89}, 0.95), both, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{100}));
}

// Twice as long is offered beside the short one where it is surer and breaks limits no more.
TEST(KeepBest, ABetterLongWayIsOffered) {
  std::vector<NamedWay> ways{way(200, {0.8}), way(210, {0.65}), way(300, {0.95, 0.97}, 0.4)};
  EXPECT_TRUE(keep_best(ways, way(100, {0.6}), both, wishes));  // the last breaks them more
  EXPECT_EQ(minutes_of(ways), (Minutes{100, 200}));
  ways = {way(200, {0.8})};
  EXPECT_FALSE(keep_best(ways, way(100, {0.6}), both, wishes));
}

// 60 minutes in two legs cost as much as 58 in three; but these are surer: the leader is not asked.
TEST(KeepBest, FewerLegsAloneAreNoChoice) {
  std::vector<NamedWay> ways{way(60, {0.93, 0.95}), way(58, {0.97, 0.98, 0.99})};
  keep_best(ways, std::nullopt, {}, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{58}));
  ways = {way(60, {0.93, 0.95}), way(58, {0.96, 0.96, 0.97})};  // surer by 0.012: no difference
  keep_best(ways, std::nullopt, {}, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{60, 58}));
}

// Legs short of the certainty by 0.3 in all against 0.06, no barred ground: quick against sure.
TEST(KeepBest, AMinuteIsNoChoiceAgainstFourPoints) {
  std::vector<NamedWay> ways{way(240, {0.91}), way(242, {0.95}), way(250, {0.98})};
  keep_best(ways, std::nullopt, {}, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{242, 250}));  // 250 is 3 % over 242
  ways = {way(240, {0.94}), way(242, {0.95})};       // a point is no difference
  keep_best(ways, std::nullopt, {}, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{240, 242}));
}

TEST(KeepBest, QuickAgainstSureWhereNoWayKeepsTheCertainty) {
  std::vector<NamedWay> ways{way(134, {0.7, 0.7, 0.8}), way(138, {0.8, 0.8}), way(218, {0.84})};
  keep_best(ways, way(130, {0.6, 0.6}, 0.5), both, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{138, 218}));
}

// A quarter more of a breach is the same to a leader: the quicker and surer one stays.
TEST(KeepBest, BreachesThatAreAlike) {
  std::vector<NamedWay> ways{way(140, {0.31}, 0.9)};
  keep_best(ways, way(100, {0.46}, 0.98), both, wishes);
  EXPECT_EQ(minutes_of(ways), (Minutes{100}));
}

}  // namespace
