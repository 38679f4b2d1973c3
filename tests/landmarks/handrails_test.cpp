#include "lodeway/landmarks/handrails.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "made_map.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::landmarks;
using made::Kind;
using made::Made;
using mapdata::Side;

// A wall going north: a gate on it, a path leaving it to the east, a cairn 30 m to the west, a
// fence across it, and a hut too far off.
TEST(Handrails, TickOffsWithPlaceKindAndSide) {
  Made m;
  m.line(Kind::wall, {{0, 0}, {0, 1000}}, "Long Wall");
  m.point(Kind::gate, {3, 200});
  m.line(Kind::path, {{0, 400}, {500, 500}});
  m.point(Kind::cairn, {-30, 600});
  m.line(Kind::fence, {{-200, 800}, {200, 800}});
  m.point(Kind::hut, {-60, 900});
  const auto fixes = m.fixes();
  const auto rails = handrails(fixes, m.map);
  const auto wall = std::ranges::find(rails, "Long Wall", &Handrail::name);
  ASSERT_NE(wall, rails.end());
  EXPECT_EQ(wall->kind, Kind::wall);
  EXPECT_NEAR(wall->length_m, 1000, 1e-9);
  ASSERT_EQ(wall->ticks.size(), 4U);
  const double at[] = {200, 400, 600, 800}, away[] = {3, 0, 30, 0};
  const Side sides[] = {Side::none, Side::right, Side::left, Side::none};
  const FixSort sorts[] = {FixSort::mark, FixSort::junction, FixSort::mark, FixSort::crossing};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(wall->ticks[i].at_m, at[i], 1e-9);
    EXPECT_NEAR(wall->ticks[i].away_m, away[i], 1e-9);
    EXPECT_EQ(wall->ticks[i].side, sides[i]) << i;
    EXPECT_EQ(fixes[wall->ticks[i].fix].sort, sorts[i]);
  }
  ASSERT_TRUE(wall->first_fix && wall->last_fix);
  EXPECT_EQ(fixes[*wall->last_fix].at, (GridPoint{0, 1000}));
}

TEST(Handrails, OfTheSkarrowFells) {
  auto g = fells::make_skarrow_fells();
  g.kinds = io::built_in_rules().table();
  const Fixes fixes(g.elevation, g.map, g.kinds);
  std::size_t edges = 0, ticks = 0;
  double sum = 0, all = 0;
  for (const auto& h : handrails(fixes, g.map)) {
    EXPECT_TRUE(g.kinds[h.kind].leads);
    EXPECT_NEAR(mapdata::length_m(h.points), h.length_m, 1e-6);
    edges += h.chain.edges.size();
    ticks += h.ticks.size();
    sum += h.length_m;
    double before = 0;
    for (const auto& t : h.ticks) {
      EXPECT_LE(before, t.at_m);
      EXPECT_LE(t.at_m, h.length_m);
      EXPECT_LE(t.away_m, 150);
      // where it is said to be, it is
      EXPECT_NEAR(earth::grid_distance_m(mapdata::Measured(h.points).at(t.at_m), fixes[t.fix].at),
                  t.away_m, 1e-6);
      before = t.at_m;
    }
  }
  for (const auto& e : fixes.network().edges()) all += e.length_m;
  EXPECT_EQ(edges, fixes.network().edges().size());
  EXPECT_NEAR(sum, all, 1e-3);
  EXPECT_GT(ticks, 500U);
}
}  // namespace
