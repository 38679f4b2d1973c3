// Turns at forks, bends, water and walls, on ground made by hand: every bearing can be read off the
// coordinates.
#include "lodeway/trip/directions.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "lodeway/trip/turn_words.hpp"

namespace lodeway::trip {
namespace {

using earth::GridPoint;
using mapdata::Kind;
using mapdata::Side;
using reckoning::JudgedLeg;

struct Crossroads : testing::Test {
  Crossroads() {
    for (int k = 0; k < mapdata::kind_count; ++k) ground.kinds[static_cast<Kind>(k)].leads = true;
  }
  void line(Kind kind, std::vector<GridPoint> points, const std::string& name = "") {
    ground.map.lines.push_back({{kind, name}, std::move(points)});
  }
  void along(Kind kind, std::vector<GridPoint> points) {
    auto& leg = legs.emplace_back();
    leg.course.kind = walking::LegKind::along;
    leg.course.followed = {kind, std::string(mapdata::kind_words(kind))};
    leg.course.line = std::move(points);
    leg.figures.length_m = mapdata::length_m(leg.course.line);
  }
  void straight(GridPoint a, GridPoint b) {
    auto& leg = legs.emplace_back();
    leg.course.line = {a, b};
    leg.figures.length_m = mapdata::length_m(leg.course.line);
    leg.judged.needle.emplace();
    leg.judged.needle->aim = b;
    leg.judged.needle->bearing = earth::grid_bearing(a, b);
  }
  [[nodiscard]] std::vector<Directions> told() const {
    std::vector<std::vector<const JudgedLeg*>> ways(1);
    for (const auto& leg : legs) ways[0].push_back(&leg);
    return directions_of(ways, ground)[0];
  }
  walking::Ground ground;
  std::vector<JudgedLeg> legs;
};

double degrees(units::GridBearing b) { return b.in_degrees(); }

// A path comes from the south and parts in two, 45 degrees to each side.
TEST_F(Crossroads, WhereAPathPartsInTwo) {
  line(Kind::path, {{0, 0}, {0, 500}});
  line(Kind::path, {{0, 500}, {300, 800}});
  line(Kind::path, {{0, 500}, {-300, 800}});
  line(Kind::wall, {{0, 500}, {0, 900}});  // nobody takes a wall for a path
  along(Kind::path, {{0, 0}, {0, 500}});
  along(Kind::path, {{0, 500}, {300, 800}});
  const auto all = told();
  ASSERT_TRUE(all[0].at_end);
  const auto& end = *all[0].at_end;
  EXPECT_EQ(end.turn, Turn::right);
  EXPECT_NEAR(degrees(end.taken), 45, 1e-9);
  ASSERT_EQ(end.wrong.size(), 1U);
  EXPECT_NEAR(degrees(end.wrong[0]), 315, 1e-9);
  EXPECT_TRUE(all[0].forks.empty());
  EXPECT_FALSE(all[1].at_end);  // the way ends there
}

TEST_F(Crossroads, WhereThereIsNoChoiceThereIsNoFork) {
  line(Kind::path, {{0, 0}, {0, 500}, {300, 800}});
  along(Kind::path, {{0, 0}, {0, 500}});
  along(Kind::path, {{0, 500}, {300, 800}});
  EXPECT_FALSE(told()[0].at_end);
  EXPECT_TRUE(told()[0].forks.empty());
}

// Two side paths to the right are passed, one of them with a sharp angle; the third is the way, and
// who stands there sees one right only.
TEST_F(Crossroads, WhatIsPassedIsNotCounted) {
  line(Kind::path, {{0, 0}, {0, 800}});
  line(Kind::path, {{0, 150}, {200, 150}});
  line(Kind::track, {{0, 300}, {200, 500}});
  line(Kind::path, {{0, 300}, {-200, 220}});  // joins from behind on the left: still a choice
  line(Kind::path, {{0, 500}, {200, 500}});
  along(Kind::path, {{0, 0}, {0, 500}});
  along(Kind::path, {{0, 500}, {200, 500}});
  const auto all = told();
  ASSERT_EQ(all[0].forks.size(), 2U);
  EXPECT_NEAR(all[0].forks[0].at_m, 150, 1e-6);
  EXPECT_EQ(all[0].forks[0].turn, Turn::straight_on);
  EXPECT_EQ(all[0].forks[1].turn, Turn::keep_left);  // the track leaves at 45 degrees
  ASSERT_EQ(all[0].forks[1].wrong.size(), 2U);
  EXPECT_NEAR(degrees(all[0].forks[1].wrong[0]), 45, 1e-9);
  ASSERT_TRUE(all[0].at_end);
  EXPECT_EQ(turn_name(all[0].at_end->turn), "right");
  EXPECT_NEAR(degrees(all[0].at_end->taken), 90, 1e-9);
  EXPECT_NEAR(degrees(all[0].at_end->wrong.at(0)), 0, 1e-9);  // straight on
}

// Two leave to the same side at one place: how far says which.
TEST_F(Crossroads, HalfAndSharpToTheSameSide) {
  line(Kind::path, {{0, 0}, {0, 300}});
  line(Kind::path, {{0, 300}, {150, 500}});
  line(Kind::path, {{0, 300}, {150, 200}});
  along(Kind::path, {{0, 0}, {0, 300}});
  along(Kind::path, {{0, 300}, {150, 500}});
  EXPECT_EQ(told()[0].at_end->turn, Turn::half_right);
  legs[1].course.line = {{0, 300}, {150, 200}};
  EXPECT_EQ(told()[0].at_end->turn, Turn::sharp_right);
}

// East for 40 m, then north: who stands there sees it go east. After 80 m of east it is the chord of 100 m,
// atan(80 / 20) = 75.96 degrees, within 20 of what is seen.
TEST(SetsOut, AsOneSeesItWhoStandsThere) {
  EXPECT_NEAR(degrees(sets_out({{0, 0}, {40, 0}, {40, 300}})), 90, 1e-9);
  EXPECT_NEAR(degrees(sets_out({{0, 0}, {80, 0}, {80, 300}})), std::atan2(80, 20) * 180 / std::numbers::pi, 1e-9);
  EXPECT_NEAR(degrees(sets_out({{0, 0}, {0, 50}})), 0, 1e-9);
}

// A path goes on north, the way leaves it on a bearing 7 degrees to the right: nothing turns there, so
// it is said that the path is left, and that it is not the way. From one bearing onto another the same.
TEST_F(Crossroads, OffThePathOnABearing) {
  line(Kind::path, {{0, 0}, {0, 500}, {0, 900}});
  line(Kind::path, {{0, 500}, {-300, 500}});
  along(Kind::path, {{0, 0}, {0, 500}});
  straight({0, 500}, {49, 900});
  const auto end = told()[0].at_end;
  ASSERT_TRUE(end);
  EXPECT_EQ(end->turn, Turn::leave);
  EXPECT_EQ(turn_name(end->turn), "leave it, on the bearing");
  EXPECT_NEAR(degrees(end->taken), std::atan2(49, 400) * 180 / std::numbers::pi, 1e-9);
  ASSERT_EQ(end->wrong.size(), 2U);
  EXPECT_NEAR(degrees(end->wrong[0]), 0, 1e-9);
  EXPECT_NEAR(degrees(end->wrong[1]), 270, 1e-9);
}

// The path sets out 2 degrees off the bearing and turns off later: no needle tells them apart.
TEST_F(Crossroads, WhatSetsOutBesideTheNeedleIsNoWrongWay) {
  line(Kind::path, {{0, 0}, {0, 500}, {0, 600}, {-300, 800}});
  line(Kind::path, {{0, 500}, {-300, 500}});
  along(Kind::path, {{0, 0}, {0, 500}});
  straight({0, 500}, {14, 900});
  const auto end = told()[0].at_end;
  ASSERT_TRUE(end);
  EXPECT_EQ(end->turn, Turn::leave);
  ASSERT_EQ(end->wrong.size(), 1U);
  EXPECT_NEAR(degrees(end->wrong[0]), 270, 1e-9);
  ASSERT_EQ(end->beside.size(), 1U);
  EXPECT_NEAR(degrees(end->beside[0]), 0, 1e-9);
}

// The leg begins and ends on a road that goes on at both ends, round a corner each time: its own line
// is no branch of it, 20 m after the start as little as 20 m before the end.
TEST_F(Crossroads, ItsOwnLineBehindStartAndEndIsNoFork) {
  line(Kind::road, {{-200, 0}, {-10, 0}, {0, 0}, {5, 15}, {0, 30}, {0, 470}, {5, 480}, {0, 500}, {-40, 505}, {-200, 480}});
  along(Kind::road, {{0, 0}, {5, 15}, {0, 30}, {0, 470}, {5, 480}, {0, 500}});
  straight({0, 500}, {300, 900});
  const auto all = told();
  EXPECT_TRUE(all[0].forks.empty());
  ASSERT_TRUE(all[0].at_end);
  EXPECT_EQ(all[0].at_end->wrong.size(), 1U);
}

// A saddle lies 7 m beside the path, and there another path leaves it: who stands on it sees both.
TEST_F(Crossroads, WaysThatPartBesideTheEnd) {
  line(Kind::path, {{0, 0}, {0, 500}, {0, 900}});
  line(Kind::faint_path, {{0, 495}, {-200, 600}});
  along(Kind::path, {{0, 0}, {0, 499}, {7, 500}});
  along(Kind::path, {{7, 500}, {0, 501}, {0, 900}});
  const auto end = told()[0].at_end;
  ASSERT_TRUE(end);
  ASSERT_EQ(end->wrong.size(), 1U);
  EXPECT_NEAR(degrees(end->wrong[0]), 360 - std::atan2(200, 105) * 180 / std::numbers::pi, 1);
}

// From a bearing onto a bearing where a road leaves one degree off the second and runs away from it,
// and another that runs beside it all the way.
TEST_F(Crossroads, FromBearingToBearingWhereWaysPart) {
  line(Kind::road, {{0, 0}, {100, 102}, {100, 900}});
  line(Kind::road, {{0, 0}, {-300, 0}});
  straight({0, -500}, {0, 0});
  straight({0, 0}, {600, 600});
  auto end = told()[0].at_end;
  ASSERT_TRUE(end);
  EXPECT_EQ(turn_name(end->turn), "by the needle, along no way");
  ASSERT_EQ(end->wrong.size(), 1U);
  EXPECT_NEAR(degrees(end->wrong[0]), 270, 1e-9);
  ASSERT_EQ(end->beside.size(), 1U);
  EXPECT_FALSE(end->beside_all_along);
  ground.map.lines[0].points = {{0, 0}, {100, 110}, {600, 600}};
  end = told()[0].at_end;
  ASSERT_TRUE(end);
  ASSERT_EQ(end->wrong.size(), 1U);
  EXPECT_NEAR(degrees(end->wrong[0]), 270, 1e-9);
  EXPECT_EQ(end->beside.size(), 1U);
  EXPECT_TRUE(end->beside_all_along);
  ground.map.lines.pop_back();
  ground.map.lines.pop_back();
  EXPECT_FALSE(told()[0].at_end);
}

// The start lies 60 m east of a beck and the end 40 m off it: it is come to over open ground, and left.
TEST_F(Crossroads, OntoTheLineAndOffIt) {
  line(Kind::stream, {{0, -300}, {0, 900}});
  along(Kind::stream, {{60, 0}, {0, 0}, {0, 500}, {40, 500}});
  const auto forks = told()[0].forks;
  ASSERT_EQ(forks.size(), 2U);
  EXPECT_TRUE(forks[0].met);
  EXPECT_EQ(forks[0].turn, Turn::right);
  EXPECT_NEAR(forks[0].at_m, 60, 3);
  ASSERT_EQ(forks[0].wrong.size(), 1U);
  EXPECT_NEAR(degrees(forks[0].wrong[0]), 180, 1e-9);
  EXPECT_EQ(turn_name(forks[1].turn), "leave it, over open ground");
  EXPECT_NEAR(degrees(forks[1].taken), 90, 1);
  ASSERT_EQ(forks[1].wrong.size(), 1U);
  EXPECT_NEAR(degrees(forks[1].wrong[0]), 0, 1e-9);
}

// North on the needle to a wall, then along it to the east: it lies on the left hand.
TEST_F(Crossroads, AtAWall) {
  line(Kind::wall, {{-400, 500}, {400, 500}});
  straight({0, 0}, {0, 500});
  along(Kind::wall, {{0, 500}, {400, 500}});
  const auto all = told();
  ASSERT_TRUE(all[0].at_end);
  EXPECT_EQ(all[0].at_end->turn, Turn::right);
  ASSERT_EQ(all[0].at_end->wrong.size(), 1U);
  EXPECT_NEAR(degrees(all[0].at_end->wrong[0]), 270, 1e-9);
  EXPECT_EQ(all[1].keeps, Side::left);
}

// Who aimed off to the left of the end comes to it along the wall, and turns from there.
TEST_F(Crossroads, AfterAimingOff) {
  line(Kind::wall, {{-400, 500}, {0, 500}});
  line(Kind::wall, {{0, 500}, {0, 900}});
  line(Kind::wall, {{0, 500}, {400, 500}});
  straight({0, 0}, {0, 500});
  legs[0].judged.needle->aim = {-100, 500};
  legs[0].judged.after.emplace();
  along(Kind::wall, {{0, 500}, {0, 900}});
  const auto end = told()[0].at_end;
  ASSERT_TRUE(end);
  EXPECT_EQ(end->turn, Turn::left);  // from going east to going north
}

TEST_F(Crossroads, WaterRunsTheWayTheHeightsFall) {
  ground.elevation = terrain::Elevation(terrain::Frame{-1000, 1000, 50, 40, 40}, 0.0F);
  for (int r = 0; r < 40; ++r) {
    for (int c = 0; c < 40; ++c) ground.elevation[r, c] = 400.0F - 5.0F * static_cast<float>(r);
  }  // rows go south: the north is high
  along(Kind::stream, {{0, 0}, {0, 500}});
  EXPECT_EQ(told()[0].flow, Flow::upstream);
  std::ranges::reverse(legs[0].course.line);
  EXPECT_EQ(told()[0].flow, Flow::downstream);
  legs[0].course.line = {{0, 0}, {300, 0}};  // level
  EXPECT_EQ(told()[0].flow, Flow::none);
  line(Kind::stream, {{0, 0}, {300, 0}});  // drawn downstream
  EXPECT_EQ(told()[0].flow, Flow::downstream);
  std::ranges::reverse(legs[0].course.line);
  EXPECT_EQ(told()[0].flow, Flow::upstream);
}

// Two becks join from the left and one from the right: who keeps to the right bank wades one.
TEST_F(Crossroads, WaterIsKeptWhereLessJoins) {
  line(Kind::stream, {{0, 0}, {0, 900}});
  line(Kind::stream, {{-200, 200}, {0, 200}});
  line(Kind::stream, {{-200, 500}, {0, 500}});
  line(Kind::stream, {{200, 700}, {0, 700}});
  along(Kind::stream, {{0, 0}, {0, 900}});
  EXPECT_EQ(told()[0].keeps, Side::left);
  std::ranges::reverse(legs[0].course.line);
  EXPECT_EQ(told()[0].keeps, Side::right);
}

TEST_F(Crossroads, TheWoodIsWhereItsAreaIs) {
  mapdata::AreaFeature wood;
  wood.label.kind = Kind::wood;
  wood.outer = {{0, 0}, {500, 0}, {500, 500}, {0, 500}};
  ground.map.areas.push_back(wood);
  along(Kind::wood_edge, {{0, 50}, {0, 450}});
  EXPECT_EQ(told()[0].keeps, Side::right);
  std::ranges::reverse(legs[0].course.line);
  EXPECT_EQ(told()[0].keeps, Side::left);
}

// North 300 m, east 400 m with 30 m of zigzag that is no bend, then south.
TEST_F(Crossroads, BendsThatAreHeld) {
  along(Kind::path, {{0, 0}, {0, 300}, {200, 300}, {215, 290}, {230, 300}, {400, 300}, {400, 0}});
  const auto bends = told()[0].bends;
  ASSERT_EQ(bends.size(), 2U);
  EXPECT_NEAR(bends[0].at_m, 300, 1e-6);
  EXPECT_NEAR(degrees(bends[0].after), 90, 1e-9);
  EXPECT_NEAR(degrees(bends[1].after), 180, 1e-9);
  legs[0].figures.length_m *= 2;  // the ground's metres, not the grid's
  EXPECT_NEAR(told()[0].bends[0].at_m, 600, 1e-6);
}

// The zigzag goes out instead of in, and is the farthest from the straight line between the ends:
// the plainer line keeps its tip, 10 m aside after 215 m, and leads atan(10 / 215) = 2.7 degrees
// to the left of east. It still is no bend.
TEST_F(Crossroads, ABendIsToldFromAPlainerLine) {
  along(Kind::path, {{0, 0}, {0, 300}, {200, 300}, {215, 310}, {230, 300}, {400, 300}, {400, 0}});
  const auto bends = told()[0].bends;
  ASSERT_EQ(bends.size(), 2U);
  EXPECT_NEAR(degrees(bends[0].after), 90 - std::atan(10.0 / 215) * 180 / std::numbers::pi, 1e-9);
  EXPECT_NEAR(degrees(bends[1].after), 180, 1e-9);
}

TEST(TurnWords, AForkAndWhatIsNotTheWay) {
  Trip trip;
  ForkAhead fork{150, Turn::left, units::MagneticBearing::degrees(341.8),
                 {units::MagneticBearing::degrees(234.6), units::MagneticBearing::degrees(7)}};
  EXPECT_EQ(fork_words(fork, trip), "left, 342°; not 235°, 007°");
  trip.language = Language::german;
  EXPECT_EQ(fork_words(fork, trip), "links, 342°; nicht 235°, 007°");
  PlannedLeg leg;
  leg.forks = {fork,
               {400, Turn::straight_on, units::MagneticBearing::degrees(10),
                {units::MagneticBearing::degrees(100)}},
               {800, Turn::straight_on, units::MagneticBearing::degrees(10),
                {units::MagneticBearing::degrees(100)}}};
  leg.course.followed.kind = Kind::path;
  leg.ticks.push_back({"path joins, right", Kind::path, Side::right, 390, 5, {}});
  trip.language = Language::english;
  EXPECT_EQ(forks_told(leg, trip),
            (std::vector<std::string>{"at 150 m left, 342°; not 235°, 007°",
                                      "at 800 m straight on, 010°; not 100°"}));  // no tick tells of it
  fork.met = true;
  leg.forks = {fork};
  EXPECT_EQ(forks_told(leg, trip),
            std::vector<std::string>{"first 150 m over open ground to it, there left, 342°; not 235°, 007°"});
  trip.language = Language::german;
  EXPECT_EQ(forks_told(leg, trip),
            std::vector<std::string>{"zuerst 150 m über freies Gelände dorthin, da links, 342°; nicht 235°, 007°"});
  EXPECT_EQ(fork_words({0, Turn::bearing, units::MagneticBearing::degrees(69), {units::MagneticBearing::degrees(180)},
                        {units::MagneticBearing::degrees(70)}}, trip),
            "nach der Nadel, auf keinem Weg, 069°; nicht 180°; 070° beginnt ebenso und biegt ab");
}

}  // namespace
}  // namespace lodeway::trip
