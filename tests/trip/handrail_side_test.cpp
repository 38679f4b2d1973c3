// What keeps to one side of a handrail leg, on ground made by hand.
#include "lodeway/trip/handrail_side.hpp"

#include <algorithm>

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

using mapdata::Kind;

struct Sides : testing::Test {
  Sides() {
    auto& course = way.legs.emplace_back().course;
    course.kind = walking::LegKind::along;
    course.followed.kind = Kind::path;
    course.line = {{1000, 1000}, {1000, 1500}, {1200, 1900}};
  }
  void line(Kind kind, const std::string& name, std::vector<earth::GridPoint> points) {
    ground.map.lines.push_back({{kind, name}, std::move(points)});
  }
  std::string remark(Language language = Language::english) {
    return sides_of(way, ground, language).at(0);
  }
  reckoning::JudgedWay way;
  walking::Ground ground;
};

TEST_F(Sides, WaterOnTheLeftAllAlong) {
  line(Kind::stream, "Fallow Beck", {{970, 990}, {970, 1500}, {1160, 1910}});
  EXPECT_EQ(remark(), "Fallow Beck on your left");
  EXPECT_EQ(remark(Language::german), "Fallow Beck zur Linken");
  std::ranges::reverse(way.legs[0].course.line);
  EXPECT_EQ(remark(), "Fallow Beck on your right");
}

TEST_F(Sides, NothingThatCrossesOrStopsHalfWay) {
  line(Kind::wall, "", {{970, 990}, {970, 1200}, {1030, 1300}, {1230, 1910}});  // crosses
  line(Kind::fence, "", {{1030, 990}, {1030, 1150}});                           // ends
  line(Kind::path, "", {{1020, 990}, {1020, 1500}, {1220, 1890}});              // the same kind
  line(Kind::stream, "", {{900, 990}, {900, 1900}});                            // too far
  EXPECT_EQ(remark(), "");
}

TEST_F(Sides, ALakesShoreInPieces) {
  mapdata::AreaFeature lake;
  lake.label = {Kind::lake, "Thrael Tarn"};
  lake.outer = {{1020, 980}, {1600, 980}, {1600, 1900}, {1220, 1890}, {1020, 1490}};
  ground.map.areas.push_back(lake);
  EXPECT_EQ(remark(), "Thrael Tarn on your right");
}

TEST_F(Sides, ALegOnABearingHasNone) {
  line(Kind::stream, "Fallow Beck", {{970, 990}, {970, 1500}, {1160, 1910}});
  way.legs[0].course.kind = walking::LegKind::bearing;
  EXPECT_EQ(remark(), "");
}

}  // namespace
}  // namespace lodeway::trip
