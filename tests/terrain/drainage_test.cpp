#include "lodeway/terrain/drainage.hpp"

#include <array>
#include <limits>
#include <queue>
#include <set>
#include <tuple>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "lodeway/terrain/streams.hpp"
#include "terrain/ground.hpp"

namespace lodeway::terrain {
namespace {

bool same(const Elevation& a, const Elevation& b) {
  return std::ranges::equal(a.cells(), b.cells(), [](float x, float y) {
    return x == y || (std::isnan(x) && std::isnan(y));
  });
}

bool is_outlet(const Elevation& z, int r, int c) {
  for (std::uint8_t k = 0; k < 8; ++k) {
    const auto [nr, nc] = downstream(r, c, k);
    if (!z.frame().holds(nr, nc) || !std::isfinite(z[nr, nc])) return true;
  }
  return false;
}

// The judge, a different way to the same answer: lower a flood from above until nothing changes
// (Planchon & Darboux 2002, Catena 46:159-176, with no least slope).
Elevation flood_lowered(const Elevation& z) {
  Elevation w(z.frame(), std::numeric_limits<float>::infinity());
  for (bool changed = true; changed;) {
    changed = false;
    for (int r = 0; r < z.rows(); ++r) {
      for (int c = 0; c < z.cols(); ++c) {
        float least = std::isfinite(z[r, c]) ? w[r, c] : NAN;
        if (!std::isfinite(z[r, c])) {
          w[r, c] = NAN;
          continue;
        }
        if (is_outlet(z, r, c)) least = z[r, c];
        for (std::uint8_t k = 0; k < 8 && !is_outlet(z, r, c); ++k) {
          const auto [nr, nc] = downstream(r, c, k);
          least = std::min(least, std::max(z[r, c], w[nr, nc]));
        }
        if (least != w[r, c]) w[r, c] = least, changed = true;
      }
    }
  }
  return w;
}

// A worked example (Priority-Flood, Barnes, Lehman & Mulla 2014).
TEST(Drainage, PublishedPitExample) {
  const auto z = test::ground_of(5, 5, {9, 9, 9, 9, 9,  //
                                        9, 3, 4, 5, 9,  //
                                        9, 2, 1, 6, 7,  //
                                        9, 4, 3, 5, 9,  //
                                        9, 9, 9, 9, 9});
  const auto d = drainage(z);
  const auto& filled = d.filled;
  for (int r = 0; r < 5; ++r) {
    for (int c = 0; c < 5; ++c) {
      const bool inner = r > 0 && r < 4 && c > 0 && c < 4;
      EXPECT_EQ((filled[r, c]), (inner ? 7.0F : z[r, c])) << r << "," << c;
    }
  }
  EXPECT_EQ((d.to[2, 4]), flows_away);
  EXPECT_EQ((d.to[2, 3]), 2);  // east, over the gap
  // Who drains over the gap, by hand: the nine inner cells, the gap, and of the rim every cell
  // whose greatest drop leads inward: all 15 others (each has an inner neighbour or the gap 2
  // lower).
  EXPECT_EQ((d.upstream[2, 4]), 25U);
}

// Directions by hand: drops over 1 or 1.41421 cells (O'Callaghan & Mark 1984).
TEST(Drainage, GreatestDropForItsLength) {
  auto z = test::ground_of(3, 3, {9, 9, 9, 9, 5, 4, 9, 9, 3.5F});
  EXPECT_EQ((drainage(z).to[1, 1]), 3);  // 1.5 / 1.41421 = 1.06 to the south-east against 1 east
  z[2, 2] = 3.6F;
  EXPECT_EQ((drainage(z).to[1, 1]), 2);  // 1.4 / 1.41421 = 0.99
}

RC_GTEST_PROP(DrainageLaw, FilledAsTheJudgeFills, ()) {
  const auto rows = *rc::gen::inRange(1, 24), cols = *rc::gen::inRange(1, 24);
  const auto seed = *rc::gen::arbitrary<std::uint64_t>();
  const auto steps = *rc::gen::element(0, 3, 12);
  const auto z = test::noise(rows, cols, seed, steps, *rc::gen::element(0.0, 0.05, 0.4));
  RC_ASSERT(same(drainage(z).filled, flood_lowered(z)));
}

RC_GTEST_PROP(DrainageLaw, EverythingDrainsAndIsCounted, ()) {
  const auto rows = *rc::gen::inRange(1, 24), cols = *rc::gen::inRange(1, 24);
  const auto z = test::noise(rows, cols, *rc::gen::arbitrary<std::uint64_t>(),
                             *rc::gen::element(0, 2, 12), *rc::gen::element(0.0, 0.1));
  const auto d = drainage(z);
  Raster<std::uint32_t> count(z.frame());
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < cols; ++c) {
      RC_ASSERT((d.to[r, c] == flow_unknown) == !std::isfinite(z[r, c]));
      if (d.to[r, c] == flow_unknown) continue;
      int at_r = r, at_c = c, steps = 0;
      ++count[at_r, at_c];
      while (d.to[at_r, at_c] < flows_away) {
        const float from = d.filled[at_r, at_c];
        std::tie(at_r, at_c) = downstream(at_r, at_c, d.to[at_r, at_c]);
        RC_ASSERT((d.filled[at_r, at_c] <= from));
        RC_ASSERT(++steps <= rows * cols);
        ++count[at_r, at_c];
      }
      RC_ASSERT(is_outlet(z, at_r, at_c));
    }
  }
  RC_ASSERT(count == d.upstream);
}

// Mirrored or turned ground drains alike: no two drops are equal on this ground, so no tie decides.
RC_GTEST_PROP(DrainageLaw, MirroredAndTurnedGroundDrainsAlike, ()) {
  const auto z = test::noise(17, 23, *rc::gen::arbitrary<std::uint64_t>());
  const auto filled = drainage(z).filled;
  RC_ASSERT(same(drainage(test::mirrored(z)).filled, test::mirrored(filled)));
  RC_ASSERT(same(drainage(test::turned(z)).filled, test::turned(filled)));
  const auto smooth = drainage(filled).filled;
  RC_ASSERT(same(smooth, filled));  // filling twice changes nothing
}

RC_GTEST_PROP(DrainageLaw, AConstantChangesNothing, ()) {
  auto z = test::noise(20, 20, *rc::gen::arbitrary<std::uint64_t>(), 50);
  const auto before = drainage(z);
  for (auto& v : z.cells()) v += 512;  // whole steps: exact in 32 bits
  const auto after = drainage(z);
  RC_ASSERT(before.to == after.to);
  RC_ASSERT(before.upstream == after.upstream);
}

// Two heads of order 1 meet: order 2; a third of order 1 joins: still 2 (Strahler 1957). A valley
// that falls south along column 3, side valleys from west and east; checked by hand on the drawing.
TEST(Streams, OrderAndArea) {
  const auto z = test::ground_of(6, 7, {90, 90, 90, 90, 90, 90, 90,  //
                                        90, 50, 80, 80, 80, 50, 90,  //
                                        90, 80, 45, 80, 45, 80, 90,  //
                                        90, 80, 80, 40, 80, 80, 90,  //
                                        90, 80, 80, 30, 80, 80, 90,  //
                                        90, 80, 80, 20, 80, 80, 90});
  const auto lines = stream_lines(drainage(z), 600);  // 6 cells of 100 m2
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0].order, 1);
  EXPECT_EQ(lines[1].order, 1);
  EXPECT_EQ(lines[2].order, 2);
  EXPECT_EQ(lines[0].joins, 2);
  EXPECT_EQ(lines[1].joins, 2);
  EXPECT_EQ(lines[2].joins, -1);
  EXPECT_EQ(lines[2].points.front(), z.frame().centre(3, 3));
  EXPECT_EQ(lines[2].points.back(), z.frame().centre(5, 3));
  EXPECT_EQ(lines[0].points.back(), lines[2].points.front());
}

// All lines together: every stream cell once (confluences where lines meet), areas rise downstream.
RC_GTEST_PROP(StreamsLaw, NetHoldsEveryStreamCell, ()) {
  const auto z = test::noise(30, 30, *rc::gen::arbitrary<std::uint64_t>(), 40);
  const auto d = drainage(z);
  const double least = *rc::gen::element(300.0, 1000.0, 5000.0);
  std::set<std::pair<double, double>> cells, expected;
  const auto lines = stream_lines(d, least);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (const auto& p : lines[i].points) cells.insert({p.north_m, p.east_m});
    RC_ASSERT(lines[i].head_area_m2 >= least);
    RC_ASSERT(lines[i].end_area_m2 >= lines[i].head_area_m2);
    if (lines[i].joins < 0) continue;
    const auto& down = lines[static_cast<std::size_t>(lines[i].joins)];
    RC_ASSERT(static_cast<std::size_t>(lines[i].joins) > i);
    RC_ASSERT(down.points.front() == lines[i].points.back());
    RC_ASSERT(down.order >= lines[i].order);
  }
  for (int r = 0; r < 30; ++r) {
    for (int c = 0; c < 30; ++c) {
      if (d.area_m2(r, c) < least) continue;
      bool alone = d.to[r, c] == flows_away;  // an outlet that no stream cell feeds is no line
      for (std::uint8_t k = 0; k < 8 && alone; ++k) {
        const auto [nr, nc] = downstream(r, c, k);
        alone =
            !(z.frame().holds(nr, nc) && d.area_m2(nr, nc) >= least && d.to[nr, nc] == (k + 4) % 8);
      }
      if (!alone) expected.insert({z.frame().centre(r, c).north_m, z.frame().centre(r, c).east_m});
    }
  }
  RC_ASSERT(cells == expected);
}

TEST(Drainage, OddGrounds) {
  EXPECT_TRUE(drainage(Elevation{}).filled.empty());
  EXPECT_EQ((drainage(Elevation(Frame{0, 1, 1, 1, 1}, 5)).upstream[0, 0]), 1U);
  const auto all_void = drainage(Elevation(Frame{0, 9, 1, 9, 9}, NAN));
  EXPECT_EQ((all_void.to[4, 4]), flow_unknown);
  EXPECT_TRUE(stream_lines(all_void, 1).empty());
  auto z = test::noise(9, 9, 3);
  z[4, 4] = std::numeric_limits<float>::infinity();
  z[2, 6] = -std::numeric_limits<float>::infinity();
  const auto d = drainage(z);
  EXPECT_TRUE(std::isnan(d.filled[4, 4]) && std::isnan(d.filled[2, 6]));
}

}  // namespace
}  // namespace lodeway::terrain
