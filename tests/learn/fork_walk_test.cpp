// The fork walk on nets of paths whose forks are known.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/learn/course/training_day.hpp"
#include "lodeway/mapdata/traffic.hpp"

namespace lodeway::learn {
namespace {

/// 8 km square, nearly level, nothing on it.
walking::Ground level_ground() {
  walking::Ground g;
  g.elevation = terrain::Elevation(terrain::Frame{-4000, 4000, 20, 400, 400});
  for (int r = 0; r < 400; ++r)
    for (int c = 0; c < 400; ++c)
      g.elevation[r, c] = static_cast<float>(300 + 5 * std::sin(0.05 * r) + 4 * std::cos(0.04 * c));
  g.kinds = io::built_in_rules().table();
  return g;
}
void add_path(walking::Ground& g, std::vector<GridPoint> points) {
  g.map.lines.push_back(
      {{mapdata::Kind::path, ""}, std::move(points), mapdata::Side::none, false, false});
}
/// Streets of paths `apart_m` apart, from -reach to reach.
walking::Ground net(double apart_m, double reach_m) {
  auto g = level_ground();
  for (double at = -reach_m; at <= reach_m; at += apart_m) {
    std::vector<GridPoint> east, north;
    for (double s = -reach_m; s <= reach_m; s += apart_m) {
      east.push_back({s, at});
      north.push_back({at, s});
    }
    add_path(g, east);
    add_path(g, north);
  }
  return g;
}

TEST(ForkWalk, OnANetHasTwelveForksOnTheMapPieceAndNoPathTwice) {
  const auto g = net(250, 3500);
  const TrainingGround ready(g);
  for (const GridPoint from : {GridPoint{0, 0}, {1900, 0}, {-600, 2100}}) {
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
      const auto day = make_day(ready, from, "x", -3, seed);
      ASSERT_TRUE(day.forks) << seed;
      const auto& walk = *day.forks;
      EXPECT_GE(walk.forks.size(), 12U);
      EXPECT_LE(walk.length_m, 7000);
      double length = 0;
      std::set<std::pair<std::pair<double, double>, std::pair<double, double>>> walked;
      for (std::size_t i = 0; i < walk.line.size(); ++i) {
        // half of 182 x 238 mm at 1:25 000
        EXPECT_LE(std::abs(walk.line[i].east_m - from.east_m), 2275);
        EXPECT_LE(std::abs(walk.line[i].north_m - from.north_m), 2975);
        if (i == 0) continue;
        auto a = std::pair{walk.line[i - 1].east_m, walk.line[i - 1].north_m},
             b = std::pair{walk.line[i].east_m, walk.line[i].north_m};
        EXPECT_TRUE(a.first == b.first || a.second == b.second);  // along a street
        length += std::hypot(b.first - a.first, b.second - a.second);
        if (b < a) std::swap(a, b);
        EXPECT_TRUE(walked.insert({a, b}).second) << "walked twice";
      }
      EXPECT_NEAR(length, walk.length_m, 1e-6);
      for (const auto& f : walk.forks) {
        // Straight on or a right angle, and the nearest wrong branch 90 degrees from it: (1 + 0) /
        // 2. At the net's rim the only other may lie opposite: (1 - 1) / 2.
        const bool rim = std::max(std::abs(f.at.east_m), std::abs(f.at.north_m)) > 3400;
        const bool opposite = rim && f.between_deg > 135;
        EXPECT_NEAR(std::remainder(f.turn_deg, 90), 0, 1e-6);
        EXPECT_NEAR(f.between_deg, opposite ? 180 : 90, 1e-6);
        EXPECT_NEAR(f.difficulty, opposite ? 0 : 0.5, 1e-9);
        EXPECT_EQ(f.right, "path");
        EXPECT_EQ(f.wrong, "path");
      }
      EXPECT_EQ(day.times.size(), 3U);
    }
  }
}

TEST(ForkWalk, ElevenForksAreNotEnoughAndTheReasonIsSaidInBothLanguages) {
  // One street with ten side paths, 300 m each
  auto g = level_ground();
  std::vector<GridPoint> street{{-1650, 0}};
  for (int i = 0; i < 11; ++i) {
    const double at = -1500 + 300.0 * i;
    street.push_back({at, 0});
    add_path(g, {{at, 0}, {at, 300}});
  }
  street.push_back({1650, 0});
  add_path(g, street);
  const TrainingGround ready(g);
  const auto english = make_day(ready, {0, 0}, "x", -3, 1);
  const auto german = make_day(ready, {0, 0}, "x", -3, 1, units::Language::german);
  EXPECT_FALSE(english.forks);
  const auto says = [](const TrainingDay& day, const char* what) {
    return std::ranges::any_of(day.missing,
                               [&](const auto& m) { return m.find(what) != std::string::npos; });
  };
  EXPECT_TRUE(says(english, "has 11 forks, not 12"));
  EXPECT_TRUE(says(german, "hat 11 Abzweige, nicht 12"));
  EXPECT_EQ(english.times.size(), 3U);  // time needs no forks
}

TEST(ForkWalk, KeepsSixtyMetresFromAWallOfRockOnEveryBranch) {
  auto g = net(250, 3500);
  g.map.lines.push_back(
      {{mapdata::Kind::cliff, ""}, {{40, -3500}, {40, 3500}}, mapdata::Side::none, false, false});
  const TrainingGround ready(g);
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const auto day = make_day(ready, {0, 0}, "x", -3, seed);
    ASSERT_TRUE(day.forks);
    for (const auto& p : day.forks->line) EXPECT_GE(std::abs(p.east_m - 40), 60);
    // a branch goes on for 250 m, to the next street: none ends at the rock
    for (const auto& f : day.forks->forks) EXPECT_GE(std::abs(f.at.east_m - 40), 250 + 40);
  }
}

/// The same net, with one street made a road.
walking::Ground net_with(mapdata::Kind kind, double at_m) {
  auto g = net(250, 3500);
  for (auto& line : g.map.lines) {
    const bool here = line.points.front().east_m == at_m && line.points.back().east_m == at_m;
    if (here) line.label.kind = kind;
  }
  return g;
}

TEST(ForkWalk, GoesAlongNoRoadOverNoneAndNoWrongBranchComesToOne) {
  for (const auto kind : {mapdata::Kind::road, mapdata::Kind::railway}) {
    const auto g = net_with(kind, 250);
    const TrainingGround ready(g);
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
      const auto day = make_day(ready, {0, 0}, "x", -3, seed);
      ASSERT_TRUE(day.forks);
      const double side = day.forks->line.front().east_m < 250 ? -1 : 1;
      for (const auto& p : day.forks->line) EXPECT_GE(side * (p.east_m - 250), 20);
      // who errs goes 250 m: from the next street that is the road
      for (const auto& f : day.forks->forks) EXPECT_GE(side * (f.at.east_m - 250), 250 + 20);
      for (const auto& t : day.times) {
        for (const auto& p : t.line) EXPECT_GE(side * (p.east_m - 250), 20);
      }
    }
  }
}

TEST(ForkWalk, WhereAllStreetsAreRoadsThereIsNone) {
  auto g = net(250, 3500);
  for (auto& line : g.map.lines) line.label.kind = mapdata::Kind::road;
  const TrainingGround ready(g);
  const auto day = make_day(ready, {0, 0}, "x", -3, 1);
  EXPECT_FALSE(day.forks);
  EXPECT_TRUE(day.times.empty());
  EXPECT_TRUE(std::ranges::any_of(day.missing, [](const auto& m) {
    return m.find("20 m from main roads") != std::string::npos;
  }));
}

TEST(ForkWalk, ARoadThatTheMapHasAsQuietIsWalkedAndItsLengthSaidABusyOneIsNot) {
  for (const auto traffic : {mapdata::Traffic::unknown, mapdata::Traffic::quiet,
                             mapdata::Traffic::busy, mapdata::Traffic::fast}) {
    auto g = net(250, 3500);
    for (auto& line : g.map.lines) {
      line.label.kind = mapdata::Kind::road;
      line.order = static_cast<unsigned char>(traffic);
    }
    const TrainingGround ready(g);
    const auto day = make_day(ready, {0, 0}, "x", -3, 1);
    EXPECT_EQ(day.roads_told, traffic != mapdata::Traffic::unknown);
    ASSERT_EQ(day.forks.has_value(), traffic == mapdata::Traffic::quiet);
    if (!day.forks) continue;
    EXPECT_NEAR(day.forks->road_m, day.forks->length_m, 1e-6);
    EXPECT_TRUE(has_roads(day));
  }
}

}  // namespace
}  // namespace lodeway::learn
