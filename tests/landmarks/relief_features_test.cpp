// Crests, valley floors, tops and saddles from heights alone, on grounds whose answer is plain.
#include "lodeway/landmarks/relief_features.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/terrain/coarsened.hpp"
#include "lodeway/terrain/ridges.hpp"

namespace lodeway::landmarks {
namespace {

using earth::GridPoint;
using mapdata::Kind;
using terrain::Elevation;

/// 2 km x 2 km at 10 m, the middle at (1000, 1000).
Elevation made(const std::function<double(double, double)>& height, int side = 200) {
  Elevation out({0, 10.0 * side, 10, side, side});
  for (int r = 0; r < side; ++r) {
    for (int c = 0; c < side; ++c) {
      const auto p = out.frame().centre(r, c);
      out[r, c] = static_cast<float>(height(p.east_m, p.north_m));
    }
  }
  return out;
}

/// A roof whose crest runs from west to east, along a row of cells, and rises that way, one in
/// fifty.
double roof(double x, double y) { return 500 + 0.02 * x - 0.3 * std::abs(y - 1005); }
double cone(double x, double y, double at_x, double at_y, double top) {
  return top - 0.25 * std::hypot(x - at_x, y - at_y);
}

double length(const std::vector<mapdata::LineFeature>& lines) {
  double sum = 0;
  for (const auto& l : lines) sum += mapdata::length_m(l.points);
  return sum;
}

TEST(ReliefFeatures, ARoofHasOneCrestAndNoValley) {
  const auto ground = made(roof);
  const auto ridges = relief_ridges(ground, {});
  ASSERT_EQ(ridges.size(), 1U);
  EXPECT_GT(length(ridges), 1600);
  EXPECT_LT(length(ridges), 2050);
  for (const auto& p : ridges[0].points) EXPECT_NEAR(p.north_m, 1005, 1e-6);
  EXPECT_EQ(ridges[0].label.kind, Kind::ridge_line);
  EXPECT_EQ(ridges[0].label.origin, mapdata::Origin::from_relief);
  EXPECT_GE(ridges[0].order, 1);
  EXPECT_TRUE(relief_valleys(ground, {}).empty());
}

TEST(ReliefFeatures, AGutterHasOneValleyAndNoCrest) {
  const auto ground = made([](double x, double y) { return 900 - roof(x, y) + 0.04 * x; });
  mapdata::MapData map;  // a stream far off: the map knows streams, and has none in the gutter
  map.lines.push_back({{Kind::stream, ""}, {{0, 0}, {100, 0}}});
  const auto valleys = relief_valleys(ground, map);
  ASSERT_EQ(valleys.size(), 1U);
  EXPECT_EQ(valleys[0].label.kind, Kind::valley_line);
  EXPECT_GT(length(valleys), 1500);
  for (const auto& p : valleys[0].points) EXPECT_NEAR(p.north_m, 1005, 1e-6);
  EXPECT_GT(valleys[0].points.front().east_m, valleys[0].points.back().east_m) << "downhill";
  EXPECT_TRUE(relief_ridges(ground, map).empty());
  // Where the map shows the water, it is the thing to follow.
  map.lines.push_back({{Kind::stream, ""}, {{0, 1005}, {2000, 1005}}});
  EXPECT_TRUE(relief_valleys(ground, map).empty());
  // A map without any streams: ours stand in from 1 km2 on (500 m of this gutter), marked.
  const auto streams = relief_valleys(ground, {});
  const auto stream =
      std::ranges::find(streams, Kind::stream, [](const auto& l) { return l.label.kind; });
  ASSERT_NE(stream, streams.end());
  EXPECT_EQ(stream->label.origin, mapdata::Origin::from_relief);
  EXPECT_NEAR(mapdata::length_m(stream->points), 1500, 60);
  // ... but not across a mapped lake.
  mapdata::MapData lake;
  lake.areas.push_back(
      {{Kind::lake, ""}, {{600, 900}, {1000, 900}, {1000, 1100}, {600, 1100}}, {}});
  for (const auto& l : relief_valleys(ground, lake)) {
    if (l.label.kind != Kind::stream) continue;
    for (const auto& p : l.points) {
      EXPECT_FALSE(p.east_m > 612 && p.east_m < 988) << p.east_m;
    }
  }
}

TEST(ReliefFeatures, APlaneAndALowSwellHaveNothing) {
  for (const auto& ground : {made([](double x, double) { return 0.1 * x; }),
                             made([](double x, double y) { return 0.1 * roof(x, y); }),
                             made([](double, double) { return 7.0; }), Elevation()}) {
    EXPECT_TRUE(relief_ridges(ground, {}).empty());
    EXPECT_TRUE(relief_points(ground, {}).empty());
  }
}

TEST(ReliefFeatures, TwoTopsAndTheSaddleBetween) {
  const auto ground = made([](double x, double y) {
    return std::max(cone(x, y, 605, 1005, 700), cone(x, y, 1405, 1005, 650));
  });
  // Between the cones 800 m apart the ground is lowest where both slopes meet: 1105 from the west,
  // 700 - 0.25 * 500 = 575.
  const auto points = relief_points(ground, {});
  ASSERT_EQ(points.size(), 3U);
  EXPECT_EQ(points[0].at, (GridPoint{605, 1005}));
  EXPECT_EQ(points[0].label.kind, Kind::summit);
  EXPECT_NEAR(points[0].height_m, 700, 0.01);
  EXPECT_EQ(points[1].at, (GridPoint{1405, 1005}));
  EXPECT_EQ(points[2].label.kind, Kind::saddle);
  EXPECT_NEAR(points[2].height_m, 575, 0.01);
  EXPECT_EQ(points[2].at, (GridPoint{1105, 1005}));
  // The map's own top counts, ours is not set beside it.
  mapdata::MapData map;
  map.points.push_back({{Kind::summit, "Great Top"}, {640, 1030}, 700});
  EXPECT_EQ(relief_points(ground, map).size(), 2U);
  // A top beside a void is none: what is in the void may be higher.
  auto holed = ground;
  holed[99, 63] = std::numeric_limits<float>::quiet_NaN();
  const auto fewer = relief_points(holed, {});
  EXPECT_TRUE(std::ranges::none_of(fewer, [](const auto& p) { return p.height_m > 690; }));
}

TEST(ReliefFeatures, LinesStayWithinTheirCells) {
  const auto ground = made([](double x, double y) {
    return 400 + 90 * std::sin(x / 310) * std::cos(y / 270) + 25 * std::sin(x / 90 + y / 130) +
           6 * std::sin(x / 31) * std::sin(y / 37);
  });
  std::vector<GridPoint> cells;
  for (const auto& line :
       terrain::ridge_lines(ground, ReliefScale{}.ridge_area_m2, ReliefScale{}.prominence_m)) {
    cells.insert(cells.end(), line.points.begin(), line.points.end());
  }
  const auto ridges = relief_ridges(ground, {});
  ASSERT_GT(length(ridges), 1500);
  for (const auto& ridge : ridges) {
    EXPECT_GE(mapdata::length_m(ridge.points), 390);  // 400 before simplifying
    for (const auto& p : ridge.points) {
      double nearest = 1e9;
      for (const auto& c : cells) nearest = std::min(nearest, earth::grid_distance_m(c, p));
      EXPECT_LE(nearest, 17.5);
    }
  }
}

TEST(Coarsened, MeansAndVoids) {
  Elevation fine({100, 200, 2, 5, 4});
  for (int r = 0; r < 5; ++r) {
    for (int c = 0; c < 4; ++c) fine[r, c] = static_cast<float>(10 * r + c);
  }
  fine[0, 2] = std::numeric_limits<float>::quiet_NaN();
  fine[2, 0] = fine[3, 1] = std::numeric_limits<float>::infinity();
  const auto coarse = terrain::coarsened(fine, 2);
  EXPECT_EQ(coarse.frame(), (terrain::Frame{100, 200, 4, 2, 2}));
  EXPECT_FLOAT_EQ((coarse[0, 0]), 5.5F);                  // 0 1 10 11
  EXPECT_FLOAT_EQ((coarse[0, 1]), (3 + 12 + 13) / 3.0F);  // one void
  EXPECT_TRUE(std::isnan(coarse[1, 0]));                  // half of it
  EXPECT_EQ(terrain::coarsened(fine, 1).frame(), fine.frame());
  EXPECT_EQ(at_relief_scale(fine).frame().cell_m, 10);
}

}  // namespace
}  // namespace lodeway::landmarks
