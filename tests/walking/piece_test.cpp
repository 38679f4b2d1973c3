#include "lodeway/walking/piece.hpp"

#include <gtest/gtest.h>

namespace lodeway::walking {
namespace {

Ground ground() {
  Ground g;
  g.elevation = terrain::Elevation({1000, 2000, 10, 50, 40});
  for (int r = 0; r < 50; ++r) {
    for (int c = 0; c < 40; ++c) g.elevation[r, c] = static_cast<float>(100 * r + c);
  }
  g.map.points = {{{mapdata::Kind::hut, "in"}, {1105, 1795}},
                  {{mapdata::Kind::hut, "out"}, {1305, 1795}}};
  g.map.lines = {{{mapdata::Kind::path, "through"}, {{1000, 1790}, {1400, 1790}}},
                 {{mapdata::Kind::path, "beside"}, {{1300, 1500}, {1300, 2000}}}};
  g.map.areas = {{{mapdata::Kind::lake, "round"}, {{1000, 1500}, {1400, 1500}, {1200, 2000}}, {}}};
  return g;
}

TEST(Piece, HoldsTheCellsThatTheBoxTouchesAndWholeFeatures) {
  const auto g = ground();
  const auto piece = piece_of(g, {1101, 1699, 1209, 1801});
  const terrain::Frame frame{1100, 1810, 10, 12, 11};
  EXPECT_EQ(piece.elevation.frame(), frame);
  EXPECT_EQ((piece.elevation[0, 0]), (g.elevation[19, 10]));
  EXPECT_EQ((piece.elevation[11, 10]), (g.elevation[30, 20]));
  for (const auto p : {earth::GridPoint{1150, 1750}, {1123, 1777}})
    EXPECT_EQ(terrain::height_at(piece.elevation, p), terrain::height_at(g.elevation, p));
  ASSERT_EQ(piece.map.points.size(), 1U);
  EXPECT_EQ(piece.map.points[0].label.name, "in");
  ASSERT_EQ(piece.map.lines.size(), 1U);
  EXPECT_EQ(piece.map.lines[0].points, g.map.lines[0].points);
  EXPECT_EQ(piece.map.areas.size(), 1U);
}

TEST(Piece, ABoxBesideTheGroundHoldsNothing) {
  const auto piece = piece_of(ground(), {5000, 5000, 6000, 6000});
  EXPECT_TRUE(piece.elevation.empty());
  EXPECT_TRUE(piece.map.points.empty());
}

// The ground goes on beyond its own sides only where it was cut there.
TEST(Piece, MetresToWhereItWasCut) {
  const terrain::Frame whole{1000, 2000, 10, 50, 40}, west{1000, 2000, 10, 50, 20};
  EXPECT_EQ(to_cut_m(west, whole, {1150, 1600}), 50);
  EXPECT_EQ(to_cut_m(west, whole, {1300, 1600}), 0);
  EXPECT_EQ(to_cut_m(whole, whole, {1150, 1600}), 1e300);
}

}  // namespace
}  // namespace lodeway::walking
