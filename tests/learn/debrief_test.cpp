#include "lodeway/learn/debrief/debrief.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include <fmt/format.h>

#include "lodeway/numeric/random.hpp"
#include "support/support.hpp"

namespace lodeway::learn {
namespace {

/// Noise of a receiver: some 8 m, correlated over some 60 s.
struct Noise {
  numeric::Random random;
  double e = 0, n = 0;
  explicit Noise(std::uint64_t seed) : random(seed) {}
  GridPoint next() {
    constexpr double keep = 0.85, sd = 8;
    e = keep * e + sd * std::sqrt(1 - keep * keep) * random.normal();
    n = keep * n + sd * std::sqrt(1 - keep * keep) * random.normal();
    return {e, n};
  }
};

/// Walks a line at 4 km/h, a point each 10 s.
std::vector<WalkedPoint> walk(const std::vector<GridPoint>& line, Noise& noise, double start_s = 0,
                              double kmh = 4) {
  std::vector<WalkedPoint> out;
  double t = start_s;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const auto d = line[i] - line[i - 1];
    const double length = earth::length_of(d);
    for (double s = 0; s < length; s += kmh / 0.36) {
      out.push_back({line[i - 1] + (s / length) * d + noise.next(), t});
      t += 10;
    }
  }
  out.push_back({line.back() + noise.next(), t});
  return out;
}

DebriefLeg leg(std::vector<GridPoint> line, double minutes) {
  DebriefLeg out;
  out.line = std::move(line);
  out.minutes = minutes;
  out.along = true;
  return out;
}
const walking::TimeBands bands{1, 0.1, 0.2};

TEST(Debrief, BinomialTailIsThePrintedOne) {
  // Five or fewer of ten at 0.8: 0.0328 (National Bureau of Standards 1950, AMS 6)
  EXPECT_NEAR(binomial_at_most(5, 10, 0.8), 0.0328, 5e-5);
  EXPECT_NEAR(binomial_at_most(10, 10, 0.8), 1, 1e-12);
}

TEST(Debrief, AWayWalkedAsPlannedHasItsMinutesAndNothingLeft) {
  const std::vector plan{leg({{0, 0}, {1000, 0}}, 15), leg({{1000, 0}, {1000, 800}}, 12)};
  Noise noise(1);
  const auto d = debrief(plan, walk({{0, 0}, {1000, 0}, {1000, 800}}, noise), bands);
  ASSERT_EQ(d.legs.size(), 2U);
  EXPECT_TRUE(d.legs[0].walked);
  EXPECT_NEAR(d.legs[0].minutes, 15, 0.7);
  EXPECT_NEAR(d.legs[1].minutes, 12, 0.7);
  EXPECT_TRUE(d.legs[0].left.empty());
  EXPECT_TRUE(d.legs[1].left.empty());
  EXPECT_EQ(d.inside, 2);
  EXPECT_LT(d.legs[0].across_p95_m, 30);
}

TEST(Debrief, AWrongBranchIsFoundWhereItWasTaken) {
  const std::vector plan{leg({{0, 0}, {2000, 0}}, 30)};
  for (const double turn : {20.0, 40.0, 90.0}) {
    Noise noise(static_cast<std::uint64_t>(turn));
    const double r = turn * 0.017453292519943295;
    const GridPoint off{800 + 300 * std::cos(r), 300 * std::sin(r)};
    const auto d = debrief(plan, walk({{0, 0}, {800, 0}, off, {800, 0}, {2000, 0}}, noise), bands);
    ASSERT_EQ(d.legs[0].left.size(), 1U) << turn;
    const auto& left = d.legs[0].left[0];
    EXPECT_NEAR(left.at_m, 800, 110) << turn;
    EXPECT_NEAR(left.furthest_m, 300 * std::sin(r), 40) << turn;
    ASSERT_TRUE(left.regained_m) << turn;
    EXPECT_NEAR(*left.regained_m, 600, 140) << turn;
  }
}

TEST(Debrief, ALoopPlanIsNotConfusedWithItself) {
  const std::vector plan{leg({{0, 0}, {600, 0}}, 9), leg({{600, 0}, {600, 30}, {0, 30}}, 9.5)};
  Noise noise(3);
  const auto d = debrief(plan, walk({{0, 0}, {600, 0}, {600, 30}, {0, 30}}, noise), bands);
  EXPECT_NEAR(d.legs[0].minutes, 9, 1);
  EXPECT_NEAR(d.legs[1].minutes, 9.5, 1);
}

TEST(Debrief, ATrackThatEndsEarlyLeavesLegsUnwalked) {
  const std::vector plan{leg({{0, 0}, {1000, 0}}, 15), leg({{1000, 0}, {2000, 0}}, 15)};
  Noise noise(4);
  const auto d = debrief(plan, walk({{0, 0}, {1300, 0}}, noise), bands);
  EXPECT_TRUE(d.legs[0].walked);
  EXPECT_FALSE(d.legs[1].walked);
}

TEST(Debrief, OnlyWhatWasPassedWithinSightIsAskedFor) {
  auto one = leg({{0, 0}, {1000, 0}}, 15);
  one.ticks.push_back({"wall", mapdata::Kind::wall, {500, 10}, 500, 50});
  one.ticks.push_back({"cairn", mapdata::Kind::cairn, {700, 400}, 700, 50});
  Noise noise(5);
  const auto d = debrief({one}, walk({{0, 0}, {1000, 0}}, noise), bands);
  EXPECT_EQ(d.legs[0].passed, (std::vector<std::size_t>{0}));
}

TEST(Debrief, StopsAreNotWalking) {
  const std::vector plan{leg({{0, 0}, {1000, 0}}, 15)};
  Noise noise(6);
  auto track = walk({{0, 0}, {500, 0}}, noise);
  const double t = track.back().time_s;
  for (int i = 1; i < 60; ++i) track.push_back({{500.0 + i % 3, 0}, t + 10.0 * i});
  const auto on = walk({{500, 0}, {1000, 0}}, noise, t + 600);
  track.insert(track.end(), on.begin(), on.end());
  const auto d = debrief(plan, track, bands);
  EXPECT_EQ(d.legs[0].stops, 1);
  EXPECT_NEAR(d.legs[0].standing_min, 10, 1);
  EXPECT_NEAR(d.legs[0].minutes, 15, 1.5);
}

/// "Left the way" on so many ways of 10 km with bends, all walked as planned: every one is false.
int false_alarms(int ways, const DebriefRules& rules) {
  int alarms = 0;
  for (int way = 1; way <= ways; ++way) {
    const auto seed = static_cast<std::uint64_t>(way);
    numeric::Random random(seed);
    std::vector<GridPoint> line{{0, 0}};
    double direction = 0;
    for (int i = 0; i < 50; ++i) {
      direction += 0.6 * random.normal();
      line.push_back(line.back() + GridPoint{200 * std::sin(direction), 200 * std::cos(direction)});
    }
    auto drawn = line;  // the map's line lies up to 12 m (sigma) beside the true one
    for (auto& p : drawn) p = p + GridPoint{12 * random.normal(), 12 * random.normal()};
    Noise noise(seed + 1000);
    const auto d = debrief({leg(drawn, 150)}, walk(line, noise), bands, rules);
    EXPECT_TRUE(d.legs[0].walked || rules.left_m < 45) << way;
    alarms += static_cast<int>(d.legs[0].left.size());
  }
  return alarms;
}

TEST(Debrief, FalseAlarmsAreRare) {
  const int ways = support::of_study(600, 60);
  const int alarms = false_alarms(ways, {});
  DebriefRules hasty;
  hasty.left_m = 30;
  hasty.left_for_m = 0;
  const int cried = false_alarms(ways, hasty);
  RecordProperty("km", 10 * ways);
  RecordProperty("alarms", alarms);
  RecordProperty("alarms_at_30_m_at_once", cried);
  EXPECT_LE(alarms, ways / 5);  // 0.2 in 10 km
  EXPECT_GT(cried, 10 * alarms);
}

// A wrong branch walked 300 m and back, 20 times each: how often it is found, and how far from
// where it was taken.
TEST(Debrief, AWrongBranchIsFound) {
  const std::vector plan{leg({{0, 0}, {2000, 0}}, 30)};
  for (const double turn : {20.0, 40.0, 90.0}) {
    int found = 0;
    double off = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
      Noise noise(seed);
      const double r = turn * 0.017453292519943295;
      const GridPoint end{800 + 300 * std::cos(r), 300 * std::sin(r)};
      const auto d =
          debrief(plan, walk({{0, 0}, {800, 0}, end, {800, 0}, {2000, 0}}, noise), bands);
      if (d.legs[0].left.empty()) continue;
      ++found;
      off += std::abs(d.legs[0].left[0].at_m - 800);
    }
    ASSERT_GT(found, 0);
    RecordProperty(fmt::format("found_of_20_at_{:.0f}", turn), found);
    RecordProperty(fmt::format("metres_off_at_{:.0f}", turn),
                   static_cast<int>(std::lround(off / found)));
    EXPECT_GE(found, 19) << turn;
    EXPECT_LE(off / found, 60) << turn;
  }
}

TEST(Debrief, FiveOfTenInsideSayThatTheFiguresDoNotFit) {
  Debrief d;
  d.judged = 10;
  d.inside = 5;
  EXPECT_TRUE(d.figures_do_not_fit());
  d.inside = 6;
  EXPECT_FALSE(d.figures_do_not_fit());
}

}  // namespace
}  // namespace lodeway::learn
