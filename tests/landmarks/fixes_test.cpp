#include "lodeway/landmarks/fixes.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>
#include <random>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/numeric/normal.hpp"
#include "made_map.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::landmarks;
using made::Kind;
using made::Made;
using mapdata::Visibility;

std::vector<FixSort> sorts(const Fixes& fixes) {
  std::vector<FixSort> out;
  for (const auto& f : fixes.all()) out.push_back(f.sort);
  return out;
}
Fix only(const Fixes& fixes, FixSort sort) {
  const auto found = std::ranges::find(fixes.all(), sort, &Fix::sort);
  EXPECT_EQ(std::ranges::count(fixes.all(), sort, &Fix::sort), 1) << static_cast<int>(sort);
  return *found;
}

// A path with a branch, and a wall across it: one junction, one crossing, five ends.
TEST(Fixes, MeetingsAndEndsOfLines) {
  Made m;
  m.line(Kind::path, {{0, 0}, {0, 1000}});
  m.line(Kind::path, {{0, 300}, {400, 300}});
  m.line(Kind::wall, {{-300, 700}, {300, 700}});
  const auto fixes = m.fixes();
  const auto junction = only(fixes, FixSort::junction);
  EXPECT_EQ(junction.at, (GridPoint{0, 300}));
  EXPECT_EQ(junction.on.size(), 3U);
  EXPECT_EQ(words(junction, units::Language::english), "path junction");
  const auto crossing = only(fixes, FixSort::crossing);
  EXPECT_EQ(crossing.at, (GridPoint{0, 700}));
  EXPECT_EQ(crossing.on.size(), 4U);
  EXPECT_EQ(words(crossing, units::Language::english), "path at wall");
  EXPECT_EQ(std::ranges::count(sorts(fixes), FixSort::line_end), 5);
  EXPECT_EQ(fixes.all().size(), 7U);
}

// A path drawn in two pieces goes on; a track that becomes a path is told, and not well known.
TEST(Fixes, PiecesOfOneLineAreNoJunction) {
  Made m;
  m.line(Kind::path, {{0, 0}, {0, 500}});
  m.line(Kind::path, {{0, 500}, {0, 1000}});
  EXPECT_EQ(sorts(m.fixes()), (std::vector<FixSort>{FixSort::line_end, FixSort::line_end}));
  m.map.lines[1].label.kind = Kind::track;
  const auto fixes = m.fixes();
  const auto at = fixes.near({0, 500}, 1);
  ASSERT_EQ(at.size(), 1U);
  EXPECT_EQ(words(fixes[at[0]], units::Language::english), "path becomes track");
  EXPECT_NEAR(fixes[at[0]].recognised[0], 0.45, 1e-12);
}

TEST(Fixes, KnownNoBetterThanTheSecondLine) {
  Made m;
  m.kinds[Kind::faint_path].recognised = {0.5, 0.4, 0.3, 0.1};
  m.kinds[Kind::faint_path].seen_from_m = {12, 8, 3, 0};
  m.line(Kind::path, {{0, 0}, {0, 1000}});
  m.line(Kind::faint_path, {{0, 300}, {400, 300}});
  const auto f = only(m.fixes(), FixSort::junction);
  EXPECT_EQ(f.recognised, (std::array<double, 4>{0.5, 0.4, 0.3, 0.1}));
  EXPECT_EQ(f.seen_from_m, (std::array<double, 4>{40, 20, 10, 5}));  // the meeting's own
}

// A gate stands where wall and path cross: one place, the gate's name and sort, the better known.
TEST(Fixes, WhatStandsAtOnePlaceIsOneFix) {
  Made m;
  m.kinds[Kind::gate].recognised = {0.7, 0.85, 0.6, 0.3};
  m.line(Kind::path, {{0, 0}, {0, 1000}});
  m.line(Kind::wall, {{-300, 700}, {300, 700}});
  m.point(Kind::gate, {5, 705}, "Hosk Gate");
  const auto fixes = m.fixes();
  const auto at = fixes.near({0, 700}, 20);
  ASSERT_EQ(at.size(), 1U);
  EXPECT_EQ(fixes[at[0]].sort, FixSort::mark);
  EXPECT_EQ(words(fixes[at[0]], units::Language::english), "Hosk Gate");
  EXPECT_EQ(fixes[at[0]].recognised, (std::array<double, 4>{0.9, 0.85, 0.6, 0.3}));
  EXPECT_EQ(fixes[at[0]].on.size(), 4U);
}

TEST(Fixes, BendsOfLinesAndCornersOfWalls) {
  Made m;
  m.line(Kind::track, {{0, 0}, {0, 500}, {500, 500}});       // to the right, square
  m.line(Kind::wall, {{1000, 0}, {1000, 300}, {700, 600}});  // 45 degrees: none
  m.line(Kind::wood_edge, {{2000, 0}, {2300, 0}, {2300, 300}, {2000, 300}, {2000, 0}});  // a ring
  const auto fixes = m.fixes();
  const auto bend = only(fixes, FixSort::bend);
  EXPECT_EQ(bend.at, (GridPoint{0, 500}));
  EXPECT_NEAR(bend.turn_deg, 90, 1e-9);
  EXPECT_NEAR(bend.recognised[0], 0.9 * 0.9, 1e-12);
  EXPECT_EQ(std::ranges::count(sorts(fixes), FixSort::corner), 4);
  EXPECT_EQ(fixes.near({2000, 0}, 1).size(), 1U);  // where the ring begins too
}

TEST(Fixes, BridgesByTheLineAndByThePoint) {
  Made m;
  m.line(Kind::stream, {{-500, 0}, {500, 0}});
  m.line(Kind::path, {{0, -400}, {0, -20}});
  m.line(Kind::path, {{0, -20}, {0, 20}});
  m.map.lines.back().bridge = true;
  m.line(Kind::path, {{0, 20}, {0, 400}});
  m.point(Kind::ford, {300, 2}, "");
  const auto fixes = m.fixes();
  EXPECT_EQ(only(fixes, FixSort::bridge).at, (GridPoint{0, 0}));
  EXPECT_EQ(only(fixes, FixSort::ford).on.size(), 1U);
  EXPECT_EQ(std::ranges::count(sorts(fixes), FixSort::crossing), 0);
}

// A lake 600 m by 200 m, a beck falling in from the west, one leaving at the east.
TEST(Fixes, LakesEndsInletsAndOutlets) {
  Made m;
  m.heights = terrain::Elevation(terrain::Frame{-1000, 1000, 20, 100, 100});
  for (int r = 0; r < 100; ++r)
    for (int c = 0; c < 100; ++c) {
      const double east = m.heights.frame().centre(r, c).east_m;
      m.heights[r, c] = static_cast<float>(east < -300  ? 200 - 0.1 * (east + 300)
                                           : east > 300 ? 200 - 0.1 * (east - 300)
                                                        : 200);
    }
  m.map.areas.push_back(
      {{Kind::lake, "Mirk Tarn"}, {{-300, -100}, {300, -100}, {300, 100}, {-300, 100}}, {}});
  m.line(Kind::stream, {{-900, 0}, {900, 0}}, "Ashrow Beck");
  const auto fixes = m.fixes();
  EXPECT_EQ(only(fixes, FixSort::inlet).at, (GridPoint{-300, 0}));
  EXPECT_EQ(words(only(fixes, FixSort::inlet), units::Language::english),
            "Ashrow Beck flows into Mirk Tarn");
  EXPECT_EQ(only(fixes, FixSort::outlet).at, (GridPoint{300, 0}));
  EXPECT_EQ(words(only(fixes, FixSort::outlet), units::Language::german),
            "Ashrow Beck verlässt Mirk Tarn");
  EXPECT_EQ(std::ranges::count(sorts(fixes), FixSort::lake_end), 2);
  for (const auto& f : fixes.all()) {
    if (f.sort == FixSort::lake_end) {
      EXPECT_EQ(std::abs(f.at.east_m), 300);
    }
  }
}

// Four houses 50 m apart: none of them tells where one is, but the one with a name does. A fifth that
// stands by itself does too.
TEST(Fixes, AHouseAmongHousesIsNone) {
  Made made;
  for (const double east : {0.0, 50.0, 100.0}) made.point(Kind::building, {east, 0});
  EXPECT_EQ(made.fixes().all().size(), 3U);  // two others each
  made.point(Kind::building, {0, 50});
  EXPECT_TRUE(made.fixes().all().empty());
  made.point(Kind::hut, {50, 50}, "Grethe House");
  made.point(Kind::building, {0, 1000});
  const auto fixes = made.fixes();
  ASSERT_EQ(fixes.all().size(), 2U);
  EXPECT_EQ(fixes[0].name, "Grethe House");
  EXPECT_EQ(fixes[1].at.north_m, 1000);
}

// A cone of two in five: its top is found by going up from 150 m off, at night too.
TEST(Fixes, ATopIsSeenFromWhereTheGroundLeadsUpToIt) {
  Made m;
  m.heights = terrain::Elevation(terrain::Frame{-500, 500, 10, 100, 100});
  for (int r = 0; r < 100; ++r)
    for (int c = 0; c < 100; ++c) {
      const auto p = m.heights.frame().centre(r, c);
      m.heights[r, c] = static_cast<float>(600 - 0.4 * std::hypot(p.east_m, p.north_m));
    }
  m.point(Kind::summit, {0, 0}, "Harrik Pike");
  EXPECT_NEAR(m.fixes()[0].seen_from_m[2], 150, 11);
}

// A path over a crest: nothing is there to be seen, and the crest's ends are none.
TEST(Fixes, ShapesOfTheGroundMakeNoMeeting) {
  Made m;
  m.line(Kind::path, {{-500, 0}, {500, 0}});
  m.line(Kind::ridge_line, {{0, -500}, {0, 500}});
  const auto fixes = m.fixes();
  EXPECT_EQ(sorts(fixes), (std::vector<FixSort>{FixSort::line_end, FixSort::line_end}));
  EXPECT_EQ(fixes.network().edges().size(), 4U);  // to be followed all the same
}

// Asking the index is asking everything.
RC_GTEST_PROP(Fixes, IndexAgainstLookingAtAll, ()) {
  Made m;
  std::mt19937_64 random(*rc::gen::arbitrary<unsigned>());
  const auto place = [&] {
    return GridPoint{static_cast<double>(random() % 4000), static_cast<double>(random() % 4000)};
  };
  for (int i = 0; i < 60; ++i) m.point(Kind::cairn, place());
  for (int i = 0; i < 8; ++i) m.line(Kind::wall, {place(), place()});
  const auto fixes = m.fixes();
  const auto p = place(), q = place();
  std::vector<std::uint32_t> near, along;
  for (std::uint32_t i = 0; i < fixes.all().size(); ++i) {
    const auto at = fixes[i].at, d = q - p;
    if (earth::grid_distance_m(at, p) <= 500) near.push_back(i);
    const double length2 = d.east_m * d.east_m + d.north_m * d.north_m;
    const auto w = at - p;
    const double t =
        length2 > 0 ? std::clamp((w.east_m * d.east_m + w.north_m * d.north_m) / length2, 0.0, 1.0)
                    : 0;
    if (earth::grid_distance_m(at, p + t * d) <= 150) along.push_back(i);
  }
  RC_ASSERT(fixes.near(p, 500) == near);
  RC_ASSERT(fixes.along(std::array{p, q}, 150) == along);
  for (std::uint32_t e = 0; e < fixes.network().edges().size(); ++e) {
    for (const auto i : fixes.on_edge(e)) {
      RC_ASSERT(
          std::ranges::any_of(fixes[i].on, [&](const FixOnEdge& on) { return on.edge == e; }));
    }
  }
}

// Another cairn 200 m east, seen from 40 m and known 9 of 10: by drawing 400 000 places.
TEST(Fixes, DistinctivenessAgainstDrawing) {
  Made m;
  m.point(Kind::cairn, {0, 0});
  m.point(Kind::cairn, {120, 0});
  m.point(Kind::hut, {-60, 60});  // nothing like a cairn
  const auto fixes = m.fixes();
  const numeric::Covariance error{80 * 80, 0.4 * 80 * 50, 50 * 50};
  std::mt19937_64 random(1);
  std::normal_distribution<double> normal;
  int taken = 0;
  constexpr int n = 400'000;
  for (int i = 0; i < n; ++i) {
    const double a = normal(random), b = 0.4 * a + std::sqrt(1 - 0.16) * normal(random);
    const GridPoint p{80 * a, 50 * b};
    if (std::abs(p.east_m - 120) < 40 && std::abs(p.north_m) < 40 && p.east_m > 60) ++taken;
  }
  const auto found = fixes.taken_for_another(0, error, Visibility::clear);
  EXPECT_EQ(found.likeliest, 1);
  EXPECT_NEAR(found.probability, 0.9 * taken / n, 3 * std::sqrt(0.1 * 0.9 / n));
  EXPECT_EQ(fixes.taken_for_another(0, {25, 0, 25}, Visibility::clear).probability, 0);
  EXPECT_EQ(fixes.taken_for_another(0, {}, Visibility::clear).probability, 0);
}

TEST(Fixes, OfTheSkarrowFells) {
  auto g = fells::make_skarrow_fells();
  g.kinds = io::built_in_rules().table();
  const Fixes fixes(g.elevation, g.map, g.kinds), again(g.elevation, g.map, g.kinds);
  std::map<FixSort, int> count;
  ASSERT_EQ(fixes.all().size(), again.all().size());
  for (std::uint32_t i = 0; i < fixes.all().size(); ++i) {
    const Fix &a = fixes[i], &b = again[i];
    ++count[a.sort];
    EXPECT_EQ(a.at, b.at);
    EXPECT_EQ(a.sort, b.sort);
    EXPECT_EQ(a.recognised, b.recognised);
    EXPECT_TRUE(g.elevation.frame().contains(a.at));
    for (const double known : a.recognised) EXPECT_TRUE(known >= 0 && known <= 1);
  }
  for (int s = 0; s <= static_cast<int>(FixSort::line_end); ++s)
    EXPECT_GT(count[static_cast<FixSort>(s)], 0) << s;
}
}  // namespace
