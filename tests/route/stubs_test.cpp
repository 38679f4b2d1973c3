// Short legs: which are one with their neighbour, and which a fix demands. Made ground, by hand.
#include <gtest/gtest.h>

#include <algorithm>

#include "lodeway/route/choose/way_finder.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;

std::vector<NamedWay> ways_of(const walking::Ground& g, earth::GridPoint from,
                              earth::GridPoint to) {
  walking::Request r;
  r.points = {{"start", from}, {"end", to}};
  r.party.skill = walking::Skill::novice;
  r.party.visibility = mapdata::Visibility::cloud;
  r.party.time_band = 0.15;  // the model as it is: the scenes are made for its minutes
  numeric::Serial serial;
  const auto found = WayFinder(g).find(r, {.min_certainty = 0.5, .walkers = 0}, serial);
  EXPECT_TRUE(found) << (found ? "" : found.error().what);
  return found ? found->ways : std::vector<NamedWay>{};
}

std::vector<double> lengths(const NamedWay& way) {
  std::vector<double> out;
  for (const auto& leg : way.way.legs) out.push_back(leg.judged.length_m);
  return out;
}

/// Nothing is found by a bearing here; paths and becks lead.
walking::Ground handrails() {
  auto g = made::ground();
  for (int k = 0; k < mapdata::kind_count; ++k) g.kinds[static_cast<Kind>(k)].seen_from_m.fill(8);
  g.kinds[Kind::road].leads = g.kinds[Kind::road].ticks = true;
  return g;
}

// A path meets a road; 26 m along the road a bridge, where a beck leads on. The road is no leg.
TEST(Stubs, AFewMetresAlongAnotherThingGoWithWhatComesBefore) {
  auto g = handrails();
  made::line(g, Kind::path, {at(400, 1000), at(700, 1010), at(1000, 1000)});
  made::line(g, Kind::road, {at(1000, 400), at(1000, 1700)});
  made::box(g, Kind::lake, at(1010, 900), at(1200, 1020));  // no corner is cut
  made::line(g, Kind::stream, {at(1000, 1026), at(1300, 1040), at(1600, 1026)});
  g.map.points.push_back({{Kind::bridge, "Twin Bridge"}, at(1000, 1026), 0});
  g.map.points.push_back({{Kind::sheepfold, "Fold"}, at(1600, 1026), 0});
  const auto ways = ways_of(g, at(400, 1000), at(1600, 1026));
  ASSERT_FALSE(ways.empty());
  const auto& legs = ways.front().way.legs;
  ASSERT_EQ(legs.size(), 2U) << ::testing::PrintToString(lengths(ways.front()));
  EXPECT_EQ(legs[0].course.followed.kind, Kind::path);
  EXPECT_EQ(legs[0].course.to, "Twin Bridge");
  EXPECT_NEAR(legs[0].judged.length_m, 626.3, 2);
  EXPECT_EQ(legs[1].course.followed.kind, Kind::stream);
}

/// A path with another that leaves it at a right angle, to a hut that far off.
walking::Ground side_path(double hut_m) {
  auto g = handrails();
  made::line(g, Kind::path, {at(300, 1000), at(1000, 1000)});
  made::line(g, Kind::path, {at(1000, 1000), at(1700, 1000)});
  made::line(g, Kind::path, {at(1000, 1000), at(1000, 1000 + hut_m)});
  made::line(g, Kind::stream, {at(900, 800), at(900, 1200)});  // says that the fork is near
  g.kinds[Kind::hut].seen_from_m.fill(60);
  g.map.points.push_back({{Kind::hut, "Ravock Hut"}, at(1000, 1000 + hut_m), 0});
  return g;
}

TEST(Stubs, WhatIsSeenFromTheForkNeedsNoStopThere) {
  const auto ways = ways_of(side_path(40), at(300, 1000), at(1000, 1040));
  ASSERT_FALSE(ways.empty());
  ASSERT_EQ(ways.front().way.legs.size(), 1U) << ::testing::PrintToString(lengths(ways.front()));
  EXPECT_NEAR(ways.front().way.legs[0].judged.length_m, 740, 2);
}

// Who turns off where the path goes straight on has to stop there, even for 80 m.
TEST(Stubs, AForkWhereTheWayTurnsOffIsAFix) {
  const auto ways = ways_of(side_path(80), at(300, 1000), at(1000, 1080));
  ASSERT_FALSE(ways.empty());
  const auto& legs = ways.front().way.legs;
  ASSERT_EQ(legs.size(), 2U) << ::testing::PrintToString(lengths(ways.front()));
  EXPECT_NEAR(legs[1].judged.length_m, 80, 2);
}

// One path that the map cuts at a bend without a fork is one leg.
TEST(Stubs, ABendOfOneThingPartsNothing) {
  auto g = handrails();
  made::line(g, Kind::path, {at(300, 1000), at(1000, 1000)});
  made::line(g, Kind::path, {at(1000, 1000), at(1000, 1090)});
  g.map.points.push_back({{Kind::hut, "Ravock Hut"}, at(1000, 1090), 0});
  const auto ways = ways_of(g, at(300, 1000), at(1000, 1090));
  ASSERT_FALSE(ways.empty());
  for (const auto& way : ways)
    EXPECT_EQ(way.way.legs.size(), 1U) << ::testing::PrintToString(lengths(way));
}

// A road of 500 m that becomes a track of 700 m: who follows it walks on. It is called by what most of it
// is, and the change is told.
TEST(Stubs, AWayThatBecomesAnotherSortOfWayGoesOn) {
  auto g = handrails();
  made::line(g, Kind::road, {at(400, 1000), at(900, 1000)});
  made::line(g, Kind::track, {at(900, 1000), at(1600, 1000)});
  g.map.points.push_back({{Kind::hut, "Ravock Hut"}, at(1600, 1000), 0});
  const auto ways = ways_of(g, at(400, 1000), at(1600, 1000));
  ASSERT_FALSE(ways.empty());
  const auto& legs = ways.front().way.legs;
  ASSERT_EQ(legs.size(), 1U) << ::testing::PrintToString(lengths(ways.front()));
  EXPECT_EQ(legs[0].course.followed.kind, Kind::track);
  ASSERT_EQ(legs[0].ticks.size(), 1U);
  EXPECT_EQ(legs[0].ticks[0].what, "becomes track");
  EXPECT_NEAR(legs[0].ticks[0].at_m, 500, 1);
  EXPECT_FALSE(legs[0].ticks[0].counted_from());
}

}  // namespace
}  // namespace lodeway::route
