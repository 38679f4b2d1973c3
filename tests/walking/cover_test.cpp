#include "lodeway/walking/cover.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"
#include "lodeway/walking/barred_beside.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::walking {
namespace {

using mapdata::Kind;

/// 1 km x 1 km of flat ground in UTM 29N, 10 m cells.
Ground flat_ground() {
  Ground g;
  g.grid = *earth::MapGrid::from_text("EPSG:32629");
  g.elevation = terrain::Elevation(terrain::Frame{480000, 6051000, 10, 100, 100}, 200.0F);
  for (int k = 0; k < mapdata::kind_count; ++k) g.kinds[static_cast<Kind>(k)].speed_factor = 1;
  g.kinds[Kind::marsh].speed_factor = 0.5;
  return g;
}

earth::GridPoint at(double e, double n) { return {480000 + e, 6050000 + n}; }

TEST(Cover, AreasWithHolesByTheirCentres) {
  auto g = flat_ground();
  g.map.areas.push_back({{Kind::lake, "Tarn"},
                         {at(200, 200), at(400, 200), at(400, 400), at(200, 400)},
                         {{at(280, 280), at(280, 320), at(320, 320), at(320, 280)}}});
  g.map.areas.push_back(
      {{Kind::marsh, ""}, {at(500, 0), at(600, 0), at(600, 1000), at(500, 1000)}, {}});
  const Cover cover(g, {});
  EXPECT_EQ(cover.bar_at(at(255, 255)), Bar::water);
  EXPECT_EQ(cover.bar_at(at(305, 305)), Bar::none);  // the island
  EXPECT_EQ(cover.bar_at(at(195, 255)), Bar::none);
  EXPECT_EQ(cover.bar_at(at(2000, 0)), Bar::outside);
  int water = 0;
  for (int r = 0; r < 100; ++r) {
    for (int c = 0; c < 100; ++c) water += cover.bar(r, c) == Bar::water ? 1 : 0;
  }
  EXPECT_EQ(water, 400 - 16);  // 200 m x 200 m less 40 m x 40 m, in 10 m cells
  // Half of the line lies in marsh at half the speed, half on unknown cover (Aitken's 4/5).
  EXPECT_NEAR(cover.mean_factor({at(450, 500), at(550, 500)}), 2 / (1 / 0.5 + 1 / 0.8), 1e-3);
}

// Where the map draws no houses the streets tell of them: about a corner with three others within
// 150 m it is built up, half way to the next. Two roads that cross are no town.
TEST(Cover, BetweenStreetsItIsBuiltUp) {
  auto g = flat_ground();
  const auto road = [&](earth::GridPoint a, earth::GridPoint b) {
    g.map.lines.push_back({{Kind::road, ""}, {a, b}});
  };
  road(at(300, 460), at(700, 460));
  road(at(440, 300), at(440, 700));
  EXPECT_EQ(Cover(g, {}).kind(49, 47), Kind::other);  // at 475 505
  road(at(300, 560), at(700, 560));
  road(at(540, 300), at(540, 700));
  const Cover cover(g, {});
  const auto kind = [&](double e, double n) {
    const auto [row, col] = cover.frame().cell_of(at(e, n));
    return cover.kind(row, col);
  };
  EXPECT_EQ(kind(475, 505), Kind::built_up);
  EXPECT_EQ(kind(505, 555), Kind::built_up);
  EXPECT_EQ(kind(395, 455), Kind::built_up);   // 45 m from a corner
  EXPECT_EQ(kind(345, 455), Kind::other);      // 95 m: on the road out of the town
}

// Four houses 50 m apart are a settlement: 40 m about each is built up, on dry ground. Three, as at a
// farm, are none.
TEST(Cover, BetweenHousesItIsBuiltUp) {
  auto g = flat_ground();
  g.kinds[Kind::built_up].speed_factor = 0.4;
  for (const auto place : {at(500, 500), at(550, 500), at(500, 550)})
    g.map.points.push_back({{Kind::building, ""}, place, 0});
  EXPECT_EQ(Cover(g, {}).kind(49, 50), Kind::other);
  g.map.points.push_back({{Kind::building, ""}, at(550, 550), 0});
  g.map.areas.push_back({{Kind::lake, ""}, {at(560, 540), at(600, 540), at(600, 560), at(560, 560)}, {}});
  const Cover cover(g, {});
  const auto kind = [&](double e, double n) {
    const auto [r, c] = cover.frame().cell_of(at(e, n));
    return cover.kind(r, c);
  };
  EXPECT_EQ(kind(505, 505), Kind::built_up);
  EXPECT_EQ(kind(465, 505), Kind::built_up);  // 35.4 m from the first
  EXPECT_EQ(kind(455, 505), Kind::other);     // 45.3 m
  EXPECT_EQ(kind(565, 545), Kind::lake);
  // From 400 to 500 on n 505: cells to 460 are of unknown cover, four to 500 are built up.
  EXPECT_NEAR(cover.mean_factor({at(400, 505), at(500, 505)}), 100 / (60 / 0.8 + 40 / 0.4), 1e-6);
}

// A line that is closed to walkers need not be a motorway: what bars is called what the map calls
// it, else what is known of it.
TEST(Cover, AClosedLineIsCalledByItsNameOrAsClosed) {
  for (const std::string name : {"Old range fence", ""}) {
    auto g = flat_ground();
    g.map.lines.push_back({{Kind::forbidden, name}, {at(0, 500), at(1000, 500)}});
    const auto met = Cover(g, {}).first_bar(at(500, 300), at(500, 700));
    EXPECT_EQ(bar_words(met),
              "closed ground (" + (name.empty() ? "line closed to walkers" : name) + ")");
  }
}

// A lake's shore lies in the lake's own cells half of the time; nobody wades there at a twentieth
// of the speed: beside the water the ground is open, 4/5 of a path (Aitken 1977).
TEST(Cover, AlongAShoreTheGroundIsOpen) {
  auto g = flat_ground();
  g.kinds[Kind::lake].speed_factor = 0.05;
  g.map.areas.push_back(
      {{Kind::lake, "Tarn"}, {at(200, 200), at(400, 200), at(400, 400), at(200, 400)}, {}});
  const Cover cover(g, {});
  EXPECT_NEAR(cover.mean_factor({at(201, 400), at(201, 200), at(399, 200)}), 0.8, 1e-6);
  EXPECT_NEAR(cover.mean_factor({at(195, 400), at(205, 200)}), 0.8, 1e-6);
}

// North along east 300: water 100 m to the right from 400 on, a place to avoid 60 m to the left, farther on.
// Cells are 10 m: distances are true to one. What lies beyond the reach is not told.
TEST(Cover, WhatBarsOnEitherHand) {
  auto g = flat_ground();
  g.map.areas.push_back(
      {{Kind::lake, "Tarn"}, {at(400, 400), at(600, 400), at(600, 900), at(400, 900)}, {}});
  Request r;
  r.avoid.push_back({"Bull", {at(200, 600), at(240, 600), at(240, 700), at(200, 700)}});
  const Cover cover(g, r);
  const auto found = barred_beside(cover, {at(300, 100), at(300, 950)});
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].side, mapdata::Side::left);
  EXPECT_EQ(found[0].bar, Bar::avoided);
  EXPECT_NEAR(found[0].distance_m, 60, 10);
  EXPECT_NEAR(found[0].at_m, 500, 25);
  EXPECT_EQ(found[1].bar, Bar::water);
  EXPECT_NEAR(found[1].distance_m, 100, 10);
  EXPECT_NEAR(found[1].at_m, 300, 25);
  EXPECT_TRUE(barred_beside(cover, {at(300, 100), at(300, 350)}, 50).empty());
}

TEST(Cover, RiversBarAndBridgesOpen) {
  auto g = flat_ground();
  g.map.lines.push_back({{Kind::river, "Brindle"}, {at(500, 0), at(500, 1000)}});
  EXPECT_EQ(Cover(g, {}).first_bar(at(400, 505), at(600, 505)).bar, Bar::river);
  g.map.points.push_back({{Kind::bridge, ""}, at(500, 500), NAN});
  EXPECT_EQ(Cover(g, {}).first_bar(at(400, 505), at(600, 505)).bar, Bar::none);
  EXPECT_EQ(Cover(g, {}).first_bar(at(400, 805), at(600, 805)).bar, Bar::river);
}

TEST(Cover, SteepAndAvoidedAndStreams) {
  auto g = flat_ground();
  for (int r = 0; r < 100; ++r) {
    for (int c = 50; c < 60; ++c) g.elevation[r, c] = 200.0F + 15.0F * static_cast<float>(c - 50);
    for (int c = 60; c < 100; ++c) g.elevation[r, c] = 350.0F;
  }
  g.map.lines.push_back({{Kind::stream, ""}, {at(200, 0), at(200, 1000)}});
  Request request;
  request.avoid.push_back({"butts", {at(0, 0), at(100, 0), at(100, 100), at(0, 100)}});
  const Cover cover(g, request);
  EXPECT_EQ(cover.bar_at(at(555, 500)), Bar::steep);  // atan(1.5) is 56 degrees
  EXPECT_EQ(cover.bar_at(at(50, 50)), Bar::avoided);
  EXPECT_EQ(cover.bar_at(at(200, 500)), Bar::none);
  request.party.ford_streams = false;
  EXPECT_EQ(Cover(g, request).bar_at(at(200, 500)), Bar::river);
}

// A party beside a river is not barred by it; one that would step over it is, whatever the cells
// say.
TEST(Cover, RiversBarWhereTheyAreMet) {
  auto g = flat_ground();
  g.map.lines.push_back({{Kind::river, "Brindle"}, {at(505, 0), at(505, 1000)}});
  const Cover cover(g, {});
  EXPECT_EQ(cover.bar_at(at(502, 500)), Bar::river);
  EXPECT_EQ(cover.first_bar(at(502, 500), at(300, 500)).bar, Bar::none);
  EXPECT_EQ(cover.first_bar(at(502, 100), at(502, 900)).bar, Bar::none);
  const auto met = cover.first_bar(at(502, 500), at(508, 500));
  EXPECT_EQ(met.bar, Bar::river);
  EXPECT_EQ(met.name, "Brindle");
  EXPECT_NEAR(met.at.east_m, at(505, 0).east_m, 1e-6);
}

TEST(Cover, ClearIsWhereNothingBarsFirst) {
  auto g = flat_ground();
  numeric::Random r(11);
  const auto anywhere = [&] { return at(1000 * r.uniform(), 1000 * r.uniform()); };
  // some on the corners and sides of cells, where the two could differ
  const auto on_grid = [&] {
    return at(10 * std::floor(100 * r.uniform()), 5 * std::floor(200 * r.uniform()));
  };
  for (int k = 0; k < 12; ++k) {
    auto from = k % 2 == 0 ? anywhere() : on_grid(), to = k % 2 == 0 ? anywhere() : on_grid();
    g.map.lines.push_back({{k % 3 == 0 ? Kind::cliff : Kind::river, ""}, {from, to}});
    if (k % 3 == 1) g.map.points.push_back({{Kind::bridge, ""}, from + 0.5 * (to - from)});
  }
  g.map.areas.push_back(
      {{Kind::lake, "Tarn"}, {at(400, 400), at(520, 400), at(520, 470), at(400, 470)}, {}});
  const Cover cover(g, {});
  int barred = 0;
  for (int k = 0; k < 4000; ++k) {
    const auto a = k % 2 == 0 ? anywhere() : on_grid(), b = k % 3 == 0 ? on_grid() : anywhere();
    const bool none = cover.first_bar(a, b).bar == Bar::none;
    EXPECT_EQ(cover.clear(a, b), none) << a.east_m << " " << a.north_m << " " << b.east_m;
    barred += none ? 0 : 1;
  }
  EXPECT_GT(barred, 400);
  EXPECT_LT(barred, 3900);
}

TEST(Cover, TheFirstBarIsNamed) {
  auto g = flat_ground();
  g.map.areas.push_back(
      {{Kind::lake, "Tarn"}, {at(400, 400), at(600, 400), at(600, 600), at(400, 600)}, {}});
  g.map.lines.push_back({{Kind::cliff, "Edge"}, {at(700, 0), at(700, 1000)}});
  Request request;
  request.avoid.push_back({"butts", {at(100, 400), at(200, 400), at(200, 600), at(100, 600)}});
  const Cover cover(g, request);
  const auto name = [&](double e0, double e1) {
    return cover.first_bar(at(e0, 501), at(e1, 501)).name;
  };
  EXPECT_EQ(name(20, 900), "butts");
  EXPECT_EQ(name(250, 900), "Tarn");
  EXPECT_EQ(name(650, 900), "Edge");
  EXPECT_EQ(name(900, 650), "Edge");
  EXPECT_EQ(name(750, 900), "");
}

// A channel 6 m wide across 10 m cells, from corner to corner: no walk over neighbouring cells gets
// over.
TEST(Cover, NarrowWaterDoesNotLeak) {
  auto g = flat_ground();
  g.map.areas.push_back(
      {{Kind::lake, ""}, {at(-20, -14), at(-14, -20), at(1020, 1014), at(1014, 1020)}, {}});
  const Cover cover(g, {});
  std::vector<std::pair<int, int>> todo{{99, 90}};  // south-east of the channel
  terrain::Raster<std::uint8_t> seen(g.elevation.frame());
  for (seen[99, 90] = 1; !todo.empty();) {
    const auto [r, c] = todo.back();
    todo.pop_back();
    for (int i = r - 1; i <= r + 1; ++i) {
      for (int j = c - 1; j <= c + 1; ++j) {
        if (!seen.frame().holds(i, j) || seen[i, j] != 0 || cover.bar(i, j) != Bar::none) continue;
        seen[i, j] = 1;
        todo.emplace_back(i, j);
      }
    }
  }
  EXPECT_EQ((seen[95, 95]), 1);
  EXPECT_EQ((seen[5, 5]), 0);
}

// By hand: 1000 m of grid in UTM 29N at E 480500: scale 0.99960; ground 1000.4 m; 4 km/h: 15.006
// min, times the centre 1.15 of Naismith; nine in ten under e^(1.28155 x sqrt(0.20^2 + 0.32^2)).
TEST(LegFigures, FlatLegByHand) {
  const auto g = flat_ground();
  Course course;
  course.line = {at(0, 500), at(1000, 500)};
  const auto f = figures_of(course, g, {});
  EXPECT_NEAR(f.length_m, 1000.4, 0.01);
  EXPECT_NEAR(f.bearing.in_degrees(), 90, 1e-9);
  EXPECT_NEAR(f.minutes, 1.15 * 15.006, 1e-3);
  EXPECT_NEAR(f.minutes_slow, 1.15 * 15.006 * 1.62191, 2e-3);
  EXPECT_NEAR(f.double_paces, 1000.4 / 1.6, 0.01);
  EXPECT_EQ(f.climb_m, 0);
}

// The rule of the header, by hand: 0.5 (1 - 0.8) = 0.1 rough; slope 0.25 is 0.15 over; 1.25
// together.
TEST(LegFigures, MorePacesOnRoughAndSteepGround) {
  EXPECT_NEAR(more_paces(1.0, 0.05), 1.0, 1e-12);
  EXPECT_NEAR(more_paces(0.8, 0.25), 1.25, 1e-12);
  EXPECT_NEAR(more_paces(0.4, 0.6), 1.3, 1e-12);
}

// By hand: 1000.4 m (grid scale 0.9996) rising 1 in 5: 200 m up. Naismith at 4 km/h: 15.006 + 20
// min.
TEST(LegFigures, ClimbByHand) {
  auto g = flat_ground();
  for (int r = 0; r < 100; ++r) {
    for (int c = 0; c < 100; ++c) g.elevation[r, c] = 200.0F + 2.0F * static_cast<float>(c);
  }
  Course course;
  course.line = {at(205, 505), at(805, 505)};
  auto f = figures_of(course, g, {});
  EXPECT_NEAR(f.climb_m, 120, 1e-3);
  EXPECT_EQ(f.descent_m, 0);
  EXPECT_NEAR(f.minutes, 1.15 * (600.24 / 4000 * 60 + 12), 1e-3);
  EXPECT_NEAR(f.double_paces, 600.24 / 1.6 * (1 + 120 / 600.24 - 0.1), 0.01);
  std::ranges::reverse(course.line);  // down 1 in 5 is 11.3 degrees: 10 min less for 300 m
  f = figures_of(course, g, {});
  EXPECT_NEAR(f.descent_m, 120, 1e-3);
  EXPECT_NEAR(f.minutes, 1.15 * (600.24 / 4000 * 60 - 4), 1e-3);
  g.elevation[49, 40] = NAN;
  f = figures_of(course, g, {});
  EXPECT_TRUE(f.touches_void);
}

// Paths are walked by the path's own pace and forks; a wall or a stream that leads is none.
TEST(LegFigures, WhatIsAPath) {
  for (const auto kind : {Kind::path, Kind::faint_path, Kind::track, Kind::road})
    EXPECT_TRUE(is_path(kind)) << mapdata::kind_words(kind);
  for (const auto kind : {Kind::wall, Kind::stream, Kind::power_line, Kind::river})
    EXPECT_FALSE(is_path(kind)) << mapdata::kind_words(kind);
}

}  // namespace
}  // namespace lodeway::walking
