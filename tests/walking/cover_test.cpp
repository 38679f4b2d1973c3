#include "lodeway/walking/cover.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/walking/leg_figures.hpp"

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

// By hand: 1000 m of grid in UTM 29N at E 480500: scale 0.99960; ground 1000.4 m; 4 km/h: 15.006
// min.
TEST(LegFigures, FlatLegByHand) {
  const auto g = flat_ground();
  Leg leg;
  leg.line = {at(0, 500), at(1000, 500)};
  set_figures(leg, g, {});
  EXPECT_NEAR(leg.length_m, 1000.4, 0.01);
  EXPECT_NEAR(leg.grid_bearing.in_degrees(), 90, 1e-9);
  EXPECT_NEAR(leg.minutes, 15.006, 1e-3);
  EXPECT_NEAR(leg.minutes_slow, 15.006 * (1 + 1.28155 * 0.15), 1e-3);
  EXPECT_NEAR(leg.double_paces, 1000.4 / 1.6, 0.01);
  EXPECT_EQ(leg.climb_m, 0);
}

}  // namespace
}  // namespace lodeway::walking
