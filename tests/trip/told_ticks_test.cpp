// What a leg has to be ticked off, on legs made by hand.
#include "lodeway/trip/told_ticks.hpp"

#include <gtest/gtest.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/trip/turn_words.hpp"

namespace lodeway::trip {
namespace {

using mapdata::Kind;
using mapdata::Side;
using walking::Tick;

Tick thing(const std::string& what, double at_m, Kind kind = Kind::wall) {
  return {what, kind, Side::none, at_m, at_m / 60, {at_m, 0}};
}
Tick slope(const std::string& what, double at_m) {
  auto out = thing(what, at_m, Kind::other);
  out.of_slope = true;
  return out;
}
PlannedLeg leg(double length_m, std::vector<Tick> ticks) {
  PlannedLeg out;
  out.course.kind = walking::LegKind::along;
  out.course.line = {{0, 0}, {length_m, 0}};
  out.figures.length_m = length_m;
  out.figures.minutes = length_m / 60;
  out.ticks = std::move(ticks);
  return out;
}
std::vector<double> places(const std::vector<Tick>& ticks) {
  std::vector<double> out;
  for (const auto& t : ticks) out.push_back(t.at_m);
  return out;
}
using Metres = std::vector<double>;

// The last before the end; then 1478 m halves what is bare before it, and 700 m that.
TEST(ToldTicks, TheBoxesPartWhatIsBareNotItsLastThird) {
  const auto of = leg(2939, {thing("wall crosses", 300), thing("wood edge", 700), thing("sheepfold, left", 1478),
                             thing("gate", 2657), thing("stream crosses", 2780), thing("mast, left", 2909)});
  EXPECT_EQ(places(spread_ticks(of, 3)), (Metres{700, 1478, 2909}));
  EXPECT_EQ(places(spread_ticks(of, 6)).size(), 6U);
  EXPECT_EQ(places(spread_ticks(of, 1)), (Metres{2909}));
  EXPECT_TRUE(spread_ticks(of, 0).empty());
}

// At the same spacing a thing stands before a bend, a bend before a change of slope; and a third mast
// gives way to something else.
TEST(ToldTicks, WhatCanBeCheckedInCloudStandsBeforeAChangeOfSlope) {
  const auto of = leg(1000, {slope("steepens", 480), thing("wall crosses", 520), thing("gate", 950)});
  EXPECT_EQ(places(spread_ticks(of, 2)), (Metres{520, 950}));
  const auto alike = leg(1000, {thing("mast", 300), thing("fence crosses", 340), thing("mast", 640), thing("mast", 950)});
  EXPECT_EQ(places(spread_ticks(alike, 2)), (Metres{340, 950}));
}

// A bend where 900 m would be bare; none 30 m from a wall, none in a short stretch; nothing at the start.
TEST(ToldTicks, BendsStandWhereALegWouldBeBare) {
  auto of = leg(1500, {thing("becomes road", 0, Kind::other), thing("wall crosses", 400), thing("gate", 1300)});
  of.course.line = {{0, 0}, {0, 850}, {650, 850}};
  of.bends = {{200, {}, Side::left}, {430, {}, Side::left},
              {850, units::MagneticBearing::degrees(90), Side::right}, {1400, {}, Side::left}};
  const auto told = told_ticks(of, Trip{});
  ASSERT_EQ(places(told), (Metres{200, 400, 850, 1300}));
  EXPECT_EQ(told[2].what, "bend, right: 090°");
  EXPECT_FALSE(told[2].counted_from());
  EXPECT_NEAR(told[2].minutes, 850.0 / 60, 1e-9);
  EXPECT_NEAR(told[2].at.north_m, 850, 1e-6);
}

TEST(ToldTicks, WhatFindsNoBoxIsToldWithItsPlaceAndSoIsWhatIsBare) {
  const auto of = leg(2939, {thing("wall crosses", 300), thing("wood edge", 700), thing("sheepfold, left", 1478),
                             thing("gate", 2657)});
  EXPECT_EQ(more_ticks_words(of, spread_ticks(of, 2), Trip{}),
            "also 300 m wall crosses, 700 m wood edge; nothing for 778 m, from 700 m; nothing for 1179 m, "
            "from 1478 m");
  EXPECT_EQ(more_ticks_words(leg(1100, {}), {}, Trip{}), "nothing on the whole leg");
  EXPECT_EQ(more_ticks_words(leg(590, {}), {}, Trip{}), "");
  EXPECT_EQ(more_ticks_words(leg(1100, {}), {}, Trip{}, true), "");
}

FordAhead ford(double at_m, const std::string& water, Kind kind, bool round, bool bridges = true) {
  FordAhead out;
  out.at_m = at_m;
  out.water = water;
  out.kind = kind;
  out.map_has_bridges = bridges;
  if (round) {
    out.round = WayRound{"Twin Bridge", {}, 450, 12};
    out.towards_bridge = units::MagneticBearing::degrees(329);
  }
  return out;
}

// Of all that a leg wades the worst stands first, and none is without its place.
TEST(FordsInOne, TheWorstFirstTheOthersWhereTheyAre) {
  auto of = leg(1500, {});
  EXPECT_EQ(fords_words(of, Trip{}), "");
  of.fords = {ford(87, "Near Twin Beck", Kind::stream, true), ford(640, "stream", Kind::stream, false),
              ford(902, "River Ostrel", Kind::river, false)};
  EXPECT_EQ(fords_words(of, Trip{}),
            "after 902 m: River Ostrel; high water: turn back, no bridge over it within 2000 m on the map; "
            "also 87 m Near Twin Beck, 640 m stream");
  of.fords = {ford(87, "stream", Kind::stream, false, false)};
  EXPECT_EQ(fords_words(of, Trip{}), "after 87 m: stream; high water: turn back, the map shows no bridges");
}

}  // namespace
}  // namespace lodeway::trip
