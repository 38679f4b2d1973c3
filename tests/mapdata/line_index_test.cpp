#include "lodeway/mapdata/line_index.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"

namespace lodeway::mapdata {
namespace {

std::vector<LineFeature> random_lines(numeric::Random& random, int count) {
  std::vector<LineFeature> out(static_cast<std::size_t>(count));
  for (auto& line : out) {
    GridPoint p{1000 * random.uniform(), 1000 * random.uniform()};
    for (int k = 0; k < 6; ++k) {
      line.points.push_back(p);
      p = p + GridPoint{200 * (random.uniform() - 0.5), 200 * (random.uniform() - 0.5)};
    }
  }
  return out;
}

double distance_to(const LineFeature& line, GridPoint p) {
  double least = 1e9;
  for (std::size_t i = 1; i < line.points.size(); ++i) {
    for (double t = 0; t <= 1;
         t += 0.001) {  // a slow judge: a thousand points a segment, under 0.2 m apart
      least =
          std::min(least, earth::grid_distance_m(
                              p, line.points[i - 1] + t * (line.points[i] - line.points[i - 1])));
    }
  }
  return least;
}

TEST(LineIndex, NearAgreesWithLookingAtEverything) {
  numeric::Random random(1);
  const auto lines = random_lines(random, 60);
  const LineIndex index(lines);
  for (int trial = 0; trial < 30; ++trial) {
    const GridPoint p{1000 * random.uniform(), 1000 * random.uniform()};
    const auto near = index.near(p, 80);
    for (std::uint32_t l = 0; l < lines.size(); ++l) {
      const auto found = std::ranges::find(near, l, [](const NearLine& n) { return n.ref.line; });
      const double judge = distance_to(lines[l], p);
      if (found != near.end()) {
        EXPECT_NEAR(found->distance_m, judge, 0.2);
      } else {
        EXPECT_GT(judge, 79.8);
      }
    }
  }
}

TEST(LineIndex, CrossingsInOrder) {
  std::vector<LineFeature> lines(3);
  for (int k = 0; k < 3; ++k)
    lines[static_cast<std::size_t>(k)].points = {{100.0 * (3 - k), -50}, {100.0 * (3 - k), 50}};
  const auto found = LineIndex(lines).crossings({0, 0}, {400, 0});
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[0].ref.line, 2U);
  EXPECT_NEAR(found[0].at.east_m, 100, 1e-9);
  EXPECT_NEAR(found[2].at_fraction, 0.75, 1e-12);
  EXPECT_TRUE(LineIndex(lines).crossings({0, 60}, {400, 60}).empty());
  EXPECT_TRUE(LineIndex(std::vector<LineFeature>{}).near({0, 0}, 100).empty());
}

// Both ways along the same segment the same places are met, in the other order.
TEST(LineIndex, TurnedRoundTheOrderReverses) {
  numeric::Random random(3);
  const auto lines = random_lines(random, 80);
  const LineIndex index(lines);
  for (int trial = 0; trial < 50; ++trial) {
    const GridPoint a{1000 * random.uniform(), 1000 * random.uniform()},
        b{1000 * random.uniform(), 1000 * random.uniform()};
    const auto there = index.crossings(a, b);
    auto back = index.crossings(b, a);
    std::ranges::reverse(back);
    ASSERT_EQ(there.size(), back.size());
    for (std::size_t i = 0; i < there.size(); ++i)
      EXPECT_NEAR(there[i].at_fraction, 1 - back[i].at_fraction, 1e-9);
  }
}

// On one straight line that floating point does not hold exactly: followed, not met somewhere.
TEST(LineIndex, NearlyParallelIsNotMet) {
  const auto at = [](double t) { return GridPoint{400020.1 + 60 * t, 6200000.3 + 100 * t}; };
  std::vector<LineFeature> lines(1);
  lines[0].points = {at(0.3333333), at(0.4444444)};
  for (int k = 1; k < 400; ++k)
    EXPECT_TRUE(LineIndex(lines).crossings(at(0.4444444), at(0.4444444 + 0.001 * k)).empty()) << k;
}

}  // namespace
}  // namespace lodeway::mapdata
