#include "lodeway/mapdata/strokes.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {
namespace {

using Lines = std::vector<std::vector<GridPoint>>;

TEST(Strokes, StraightOnThroughACrossing) {
  // Four arms at the origin, drawn in several directions, and a fifth that fits none.
  const Lines lines{{{0, 0}, {100, 0}},
                    {{0, 100}, {0, 0}},
                    {{-100, 5}, {0, 0}},
                    {{0, 0}, {5, -100}},
                    {{70, 70}, {0, 0}}};
  const auto found = strokes(lines, 60, 50);
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[0].parts, (std::vector<std::size_t>{2, 0}));
  EXPECT_EQ(found[0].points, (std::vector<GridPoint>{{-100, 5}, {0, 0}, {100, 0}}));
  EXPECT_EQ(found[1].parts, (std::vector<std::size_t>{1, 3}));
  EXPECT_EQ(found[2].parts, (std::vector<std::size_t>{4}));
}

TEST(Strokes, SharpTurnsPart) {
  const Lines bend{{{0, 0}, {100, 0}}, {{100, 0}, {60, 90}}};  // turns by 114 degrees
  EXPECT_EQ(strokes(bend, 75, 50).size(), 2U);
  EXPECT_EQ(strokes(bend, 120, 50).size(), 1U);
}

TEST(Strokes, RingsEndWhereTheyBegin) {
  const Lines ring{
      {{0, 0}, {100, 0}}, {{100, 100}, {100, 0}}, {{100, 100}, {0, 100}}, {{0, 0}, {0, 100}}};
  const auto found = strokes(ring, 100, 50);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].parts.size(), 4U);
  EXPECT_EQ(found[0].points.front(), found[0].points.back());
  EXPECT_DOUBLE_EQ(length_of(found[0].points[1] - found[0].points[0]), 100);
  const Lines loop{{{0, 0}, {50, 80}, {100, 0}, {0, 0}}};
  EXPECT_EQ(strokes(loop, 170, 50).size(), 1U);
  EXPECT_TRUE(strokes(Lines{}, 60, 50).empty());
}

TEST(WithoutSteps, StaysByItsCells) {
  // A staircase as drainage gives it: the steps go, the ends stay, nothing moves 1.5 cells.
  std::vector<GridPoint> line{{0, 0}};
  for (int k = 0; k < 40; ++k) {
    const auto p = line.back();
    line.push_back(k % 7 < 3    ? p + GridPoint{10, 10}
                   : k % 11 < 6 ? p + GridPoint{10, 0}
                                : p + GridPoint{10, -10});
  }
  const auto smooth = without_steps(line);
  EXPECT_EQ(smooth.front(), line.front());
  EXPECT_EQ(smooth.back(), line.back());
  EXPECT_LT(distances_along(smooth).back(), distances_along(line).back());
  for (const auto& p : smooth) {
    double nearest = 1e9;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double t = nearest_fraction(line[i - 1], line[i], p);
      nearest = std::min(nearest, length_of(p - (line[i - 1] + t * (line[i] - line[i - 1]))));
    }
    EXPECT_LE(nearest, 15);
  }
}

}  // namespace
}  // namespace lodeway::mapdata
