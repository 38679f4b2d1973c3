// What keeps to one side of a handrail leg, on ground made by hand.
#include "lodeway/trip/handrail_side.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "lodeway/mapdata/traffic.hpp"

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

// Who walks along a road minds its traffic as the map has it; what the map does not say may be busy.
TEST_F(Sides, ARoadSaysWhatItsTrafficAsks) {
  using mapdata::Traffic;
  way.legs[0].course.followed.kind = Kind::road;
  const auto of = [&](std::vector<Traffic> parts) {
    ground.map.lines.clear();
    const auto& along = way.legs[0].course.line;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      line(Kind::road, "", {along[i], along[i + 1]});
      ground.map.lines.back().order = static_cast<unsigned char>(parts[i]);
    }
    return remark();
  };
  EXPECT_EQ(of({Traffic::quiet, Traffic::quiet}), "");
  EXPECT_EQ(of({Traffic::quiet, Traffic::unknown}), "mind the traffic");
  EXPECT_EQ(of({Traffic::unknown, Traffic::busy}),
            "busy road: walk facing the traffic, one behind another");
  EXPECT_EQ(of({Traffic::fast, Traffic::quiet}), "fast road: keep off the carriageway");
  line(Kind::stream, "Fallow Beck", {{970, 990}, {970, 1500}, {1160, 1910}});
  EXPECT_EQ(remark(Language::german),
            "Fallow Beck zur Linken, schneller Verkehr: nicht auf die Fahrbahn");
}

// Wires hang over the whole of a leg on a bearing: that is told, and of none that they only cross.
TEST_F(Sides, WiresOverABearing) {
  way.legs[0].course.kind = walking::LegKind::bearing;
  way.legs[0].course.followed.kind = Kind::other;
  line(Kind::power_line, "", {{1005, 900}, {1005, 1500}, {1205, 1900}});
  EXPECT_EQ(remark(), "power line overhead nearly all the way");
  EXPECT_EQ(remark(Language::german), "Stromleitung fast immer über euch");
  ground.map.lines[0].points = {{800, 1200}, {1200, 1300}};
  EXPECT_EQ(remark(), "");
}

TEST_F(Sides, ALegOnABearingHasNone) {
  line(Kind::stream, "Fallow Beck", {{970, 990}, {970, 1500}, {1160, 1910}});
  way.legs[0].course.kind = walking::LegKind::bearing;
  EXPECT_EQ(remark(), "");
}

}  // namespace
}  // namespace lodeway::trip
