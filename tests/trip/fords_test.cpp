// Crossings without a bridge, on ground made by hand.
#include "lodeway/trip/fords.hpp"

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

using earth::GridPoint;
using mapdata::Kind;

struct Beck : testing::Test {
  Beck() {
    ground.grid = *earth::MapGrid::from_text("EPSG:32629");
    ground.elevation = terrain::Elevation(terrain::Frame{480000, 6052000, 50, 60, 60}, 200.0F);
    for (int k = 0; k < mapdata::kind_count; ++k) ground.kinds[static_cast<Kind>(k)].speed_factor = 1;
    line(Kind::stream, {{480000, 6050500}, {482500, 6050500}}, "Fallow Beck");
  }
  void line(Kind kind, std::vector<GridPoint> points, const std::string& name = "",
            bool bridge = false) {
    ground.map.lines.push_back({{kind, name}, std::move(points)});
    ground.map.lines.back().bridge = bridge;
  }
  void point(Kind kind, GridPoint at, const std::string& name = "") {
    ground.map.points.push_back({{kind, name}, at});
  }
  void leg(std::vector<GridPoint> points, Kind kind = Kind::path) {
    auto& l = way.legs.emplace_back();
    l.course.kind = walking::LegKind::along;
    l.course.followed.kind = kind;
    l.course.line = std::move(points);
    l.figures.length_m = mapdata::length_m(l.course.line);
  }
  [[nodiscard]] std::vector<std::vector<Ford>> fords() const {
    walking::Party party;
    party.time_band = 0.15;  // the model as it is
    return fords_of(way, ground, party, units::Language::english);
  }
  walking::Ground ground;
  reckoning::JudgedWay way;
};

// By hand: 600 m to the bridge and back on level ground at 4 km/h are 2 x 9 min.
TEST_F(Beck, WithTheWayRound) {
  point(Kind::bridge, {481600, 6050500}, "Hosk Bridge");
  point(Kind::bridge, {480800, 6050900});  // over nothing
  leg({{481000, 6050100}, {481000, 6050900}});
  const auto found = fords();
  ASSERT_EQ(found[0].size(), 1U);
  const auto& ford = found[0][0];
  EXPECT_NEAR(ford.at_m, 400, 1e-6);
  EXPECT_EQ(ford.water, "Fallow Beck");
  ASSERT_TRUE(ford.round);
  EXPECT_EQ(ford.round->bridge, "Hosk Bridge");
  EXPECT_NEAR(ford.round->towards.in_degrees(), 90, 1e-6);
  EXPECT_NEAR(ford.round->away_m, 600, 1e-6);
  EXPECT_NEAR(ford.round->minutes, 18, 0.02);  // the grid's scale is in it
}

// A road has its bridge or pipe; where the map has a ford on it, it is waded.
TEST_F(Beck, ARoadIsWadedOnlyAtAFordOfTheMap) {
  leg({{481000, 6050100}, {481000, 6050900}}, Kind::road);
  EXPECT_TRUE(fords()[0].empty());
  point(Kind::ford, {481000, 6050500});
  EXPECT_EQ(fords()[0].size(), 1U);
  way.legs.clear();
  ground.map.points.clear();
  leg({{481000, 6050100}, {481000, 6050900}}, Kind::track);
  EXPECT_EQ(fords()[0].size(), 1U);
}

// The second leg begins at the water: the first comes to it. Where the way itself starts there it
// stands on one bank, and on which nobody knows.
TEST_F(Beck, WhereALegBeginsItIsTheOneBefore) {
  leg({{481000, 6050100}, {481000, 6050500}});
  leg({{481000, 6050500}, {481000, 6050900}});
  const auto found = fords();
  ASSERT_EQ(found[0].size(), 1U);
  EXPECT_NEAR(found[0][0].at_m, 400, 1e-6);
  EXPECT_TRUE(found[1].empty());
  way.legs.erase(way.legs.begin());
  ASSERT_EQ(fords()[0].size(), 1U);
  EXPECT_NEAR(fords()[0][0].at_m, 0, 1e-6);
}

// A second beck of another name 15 m on is waded too.
TEST_F(Beck, TwoWatersCloseTogether) {
  line(Kind::stream, {{480000, 6050515}, {482500, 6050515}}, "Twin Beck");
  leg({{481000, 6050100}, {481000, 6050900}});
  EXPECT_EQ(fords()[0].size(), 2U);
}

TEST_F(Beck, NotOnABridgeNorWhereAPathCarriesOver) {
  leg({{481000, 6050100}, {481000, 6050900}});
  point(Kind::bridge, {481005, 6050500});
  EXPECT_TRUE(fords()[0].empty());
  ground.map.points.clear();
  EXPECT_EQ(fords()[0].size(), 1U);
  EXPECT_FALSE(fords()[0][0].round);  // none on this water
  line(Kind::path, {{481000, 6050490}, {481000, 6050510}}, "", true);
  EXPECT_TRUE(fords()[0].empty());
}

// To the water and along the same bank, or back from it, is no crossing; over it between two legs
// is one.
TEST_F(Beck, OnlyFromOneSideToTheOther) {
  leg({{481000, 6050100}, {481000, 6050500}});
  leg({{481000, 6050500}, {481300, 6050200}});
  EXPECT_TRUE(fords()[0].empty() && fords()[1].empty());
  way.legs[1].course.line = {{481000, 6050500}, {481300, 6050800}};
  EXPECT_EQ(fords()[0].size() + fords()[1].size(), 1U);
}

// The beck turns sharply 2 m beside the path: it comes from the north and goes back to the
// north-east, and the path runs by south of its bend.
TEST_F(Beck, NotWhereItsBendOnlyComesNear) {
  ground.map.lines.clear();
  line(Kind::stream, {{481000, 6050900}, {481000, 6050500}, {481400, 6050900}});
  leg({{480600, 6050500}, {481000, 6050500}, {481400, 6050500}});  // touches it at the bend
  EXPECT_TRUE(fords()[0].empty());
}

// The beck comes down from the north and turns east. A path to the south-west that meets it 1 m above
// its bend goes over; one from the west to the south-east that cuts off a metre of the bend ends
// on the bank where it began.
TEST_F(Beck, WhereTheWaterTurnsBesideTheCrossing) {
  ground.map.lines.clear();
  line(Kind::stream, {{481000, 6050900}, {481000, 6050500}, {481400, 6050500}});
  leg({{481100, 6050601}, {481000, 6050501}, {480900, 6050401}});
  EXPECT_EQ(fords()[0].size(), 1U);
  way.legs.clear();
  leg({{480900, 6050601}, {481000, 6050501}, {481100, 6050401}});
  EXPECT_TRUE(fords()[0].empty());
}

TEST_F(Beck, AlongTheWaterIsNoCrossing) {
  leg({{480500, 6050500}, {481500, 6050500}}, Kind::stream);
  EXPECT_TRUE(fords()[0].empty());
}

}  // namespace
}  // namespace lodeway::trip
