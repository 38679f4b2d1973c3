// Railways and closed roads across a leg, on ground made by hand.
#include "lodeway/trip/crossed_bars.hpp"

#include <gtest/gtest.h>

#include "lodeway/mapdata/along_line.hpp"

namespace lodeway::trip {
namespace {

using mapdata::Kind;

struct Bars : testing::Test {
  Bars() {
    auto& leg = way.legs.emplace_back();
    leg.course.kind = walking::LegKind::along;
    leg.course.followed.kind = Kind::road;
    leg.course.line = {{0, 0}, {0, 400}, {0, 900}};
    leg.figures.length_m = 900;
  }
  mapdata::LineFeature& line(Kind kind, double north_m) {
    ground.map.lines.push_back({{kind, ""}, {{-200, north_m}, {200, north_m}}});
    return ground.map.lines.back();
  }
  [[nodiscard]] std::vector<CrossedBar> crossed() const { return crossed_bars(way, ground).at(0); }
  reckoning::JudgedWay way;
  walking::Ground ground;
};

TEST_F(Bars, TwoCarriagewaysAreCrossedOnce) {
  line(Kind::forbidden, 714);
  line(Kind::forbidden, 740);
  line(Kind::railway, 300);
  line(Kind::forbidden, 1200);  // behind the end
  const auto found = crossed();
  ASSERT_EQ(found.size(), 2U);
  EXPECT_NEAR(found[0].at_m, 300, 1e-6);
  EXPECT_EQ(found[0].kind, Kind::railway);
  EXPECT_NEAR(found[1].at_m, 714, 1e-6);
  EXPECT_EQ(found[1].how, CrossedHow::unknown);
}

TEST_F(Bars, HowIsToldWhereTheMapKnowsIt) {
  line(Kind::forbidden, 100).bridge = true;
  line(Kind::forbidden, 500);
  line(Kind::railway, 700).tunnel = true;
  ground.map.lines.push_back({{Kind::road, ""}, {{0, 480}, {0, 520}}});
  ground.map.lines.back().bridge = true;
  const auto found = crossed();
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].how, CrossedHow::under);
  EXPECT_EQ(found[1].how, CrossedHow::over);
}

TEST_F(Bars, WhatIsFollowedIsNotCrossed) {
  line(Kind::railway, 300);
  way.legs[0].course.followed.kind = Kind::railway;
  EXPECT_TRUE(crossed().empty());
}

}  // namespace
}  // namespace lodeway::trip
