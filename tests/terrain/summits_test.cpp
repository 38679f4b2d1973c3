#include "lodeway/terrain/summits.hpp"

#include <map>
#include <queue>
#include <set>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "lodeway/terrain/ridges.hpp"
#include "terrain/ground.hpp"

namespace lodeway::terrain {
namespace {

// By hand: three tops in a row, 10 - 5 - 8 - 3 - 6, on ground at 0.
TEST(Summits, ThreeInARow) {
  const auto z = test::ground_of(3, 7, {0, 0,  0, 0, 0, 0, 0,  //
                                        0, 10, 5, 8, 3, 6, 0,  //
                                        0, 0,  0, 0, 0, 0, 0});
  const auto tops = summits(z, 1);
  ASSERT_EQ(tops.size(), 3U);
  EXPECT_EQ(tops[0].height_m, 10);
  EXPECT_FALSE(tops[0].has_col);
  EXPECT_EQ(tops[0].prominence_m, 10);
  EXPECT_TRUE(tops[0].at_most);  // nobody knows what stands beyond the edge
  EXPECT_EQ(tops[1].height_m, 8);
  EXPECT_EQ(tops[1].col_height_m, 5);
  EXPECT_EQ(tops[1].prominence_m, 3);
  EXPECT_EQ(tops[1].col, z.frame().centre(1, 2));
  EXPECT_EQ(tops[1].higher, 0);
  EXPECT_FALSE(tops[1].at_most);
  EXPECT_EQ(tops[2].prominence_m, 3);
  EXPECT_EQ(tops[2].col, z.frame().centre(1, 4));
  EXPECT_EQ(summits(z, 3.5).size(), 1U);
}

// The judge: from each top, the way to higher ground whose lowest place is highest (a widest path),
// searched on its own from the definition.
RC_GTEST_PROP(SummitsLaw, ProminenceByItsDefinition, ()) {
  const int rows = *rc::gen::inRange(2, 16), cols = *rc::gen::inRange(2, 16);
  const auto z = test::noise(rows, cols, *rc::gen::arbitrary<std::uint64_t>());
  const double least = 10;
  std::map<std::pair<double, double>, double> expected, found;
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < cols; ++c) {
      std::priority_queue<std::tuple<float, int, int>> open;  // lowest place so far, greatest first
      std::set<std::pair<int, int>> done;
      open.push({z[r, c], r, c});
      double lowest = 0;
      bool higher = false;
      while (!open.empty() && !higher) {
        const auto [low, i, j] = open.top();
        open.pop();
        if (!done.insert({i, j}).second) continue;
        lowest = static_cast<double>(low);
        higher = z[i, j] > z[r, c];
        for (int di = -1; di <= 1; ++di) {
          for (int dj = -1; dj <= 1; ++dj) {
            if (!z.frame().holds(i + di, j + dj)) continue;
            open.push({std::min(low, z[i + di, j + dj]), i + di, j + dj});
          }
        }
      }
      const double prominence = static_cast<double>(z[r, c]) - lowest;
      if (prominence >= least) {
        expected[{z.frame().centre(r, c).east_m, z.frame().centre(r, c).north_m}] = prominence;
      }
    }
  }
  for (const auto& s : summits(z, least)) found[{s.at.east_m, s.at.north_m}] = s.prominence_m;
  RC_ASSERT(found == expected);
}

RC_GTEST_PROP(SummitsLaw, ListHangsTogether, ()) {
  const auto z = test::noise(20, 20, *rc::gen::arbitrary<std::uint64_t>(), 30, 0.05);
  const auto tops = summits(z, 4);
  for (std::size_t i = 0; i < tops.size(); ++i) {
    if (i > 0) RC_ASSERT(tops[i].height_m <= tops[i - 1].height_m);
    if (!tops[i].has_col) continue;
    RC_ASSERT(tops[i].higher >= 0 && static_cast<std::size_t>(tops[i].higher) < tops.size());
    const auto& above = tops[static_cast<std::size_t>(tops[i].higher)];
    RC_ASSERT(above.height_m >= tops[i].height_m);
    RC_ASSERT(above.prominence_m >= tops[i].prominence_m);
    const auto [r, c] = z.frame().cell_of(tops[i].col);
    const auto col_height = static_cast<double>(z[r, c]);
    RC_ASSERT(col_height == tops[i].col_height_m);
  }
}

// A roof whose crest runs along column 20 and has two humps with a dip between: the crest from hump
// to hump, dip and all, is a ridge line.
TEST(Ridges, CrestAcrossTheDip) {
  Elevation z(Frame{0, 610, 10, 61, 41});
  for (int r = 0; r < 61; ++r) {
    for (int c = 0; c < 41; ++c) {
      z[r, c] = static_cast<float>(300 - 8 * std::abs(c - 20) - 30 * std::cos(r * 6.2831853 / 30));
    }
  }
  const auto tops = summits(z, 20);
  ASSERT_EQ(tops.size(), 2U);  // rows 15 and 45
  EXPECT_EQ(tops[1].col, z.frame().centre(30, 20));
  EXPECT_NEAR(tops[1].prominence_m, 60, 1e-4);
  std::set<std::pair<int, int>> cells;
  for (const auto& line : ridge_lines(z, 20000, 20)) {
    for (const auto& p : line.points) cells.insert(z.frame().cell_of(p));
  }
  for (int r = 15; r <= 45; ++r) EXPECT_TRUE(cells.contains({r, 20})) << r;
  for (const auto& [r, c] : cells) EXPECT_LE(std::abs(c - 20), 1) << r;
}

TEST(Ridges, OddGrounds) {
  EXPECT_TRUE(ridge_lines(Elevation{}, 100, 5).empty());
  EXPECT_TRUE(ridge_lines(Elevation(Frame{0, 9, 1, 9, 9}, NAN), 100, 5).empty());
  EXPECT_TRUE(summits(Elevation(Frame{0, 9, 1, 9, 9}, NAN), 5).empty());
  EXPECT_TRUE(summits(Elevation(Frame{0, 1, 1, 1, 1}, 5), 5).empty());
  const auto broken = test::noise(30, 30, 4, 6, 0.4);
  const auto lines = ridge_lines(broken, 500, 2);
  EXPECT_FALSE(lines.empty());
  for (const auto& line : lines) {
    for (const auto& p : line.points) {
      const auto [r, c] = broken.frame().cell_of(p);
      EXPECT_TRUE(is_height(broken[r, c]));  // never over a void
    }
  }
}

}  // namespace
}  // namespace lodeway::terrain
