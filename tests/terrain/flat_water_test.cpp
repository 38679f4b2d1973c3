// Dead-flat areas: made lakes, plateaus, terraces and slopes, as they are and in whole metres.
#include "lodeway/terrain/flat_water.hpp"

#include <cmath>
#include <limits>
#include <random>

#include <gtest/gtest.h>

namespace lodeway::terrain {
namespace {

constexpr Frame frame{500'000, 6'002'000, 20, 100, 100};

/// A bowl whose ground rises 1 in 10 from (50, 50), filled with water to `level_m`.
Elevation bowl(double level_m) {
  Elevation out(frame);
  for (int r = 0; r < frame.rows; ++r) {
    for (int c = 0; c < frame.cols; ++c)
      out[r, c] = static_cast<float>(std::max(level_m, 2 * std::hypot(r - 50, c - 50)));
  }
  return out;
}

double ring_area(const std::vector<earth::GridPoint>& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto a = ring[i], b = ring[(i + 1) % ring.size()];
    sum += (a.east_m - 500'000) * (b.north_m - 6e6) - (b.east_m - 500'000) * (a.north_m - 6e6);
  }
  return sum / 2;
}

// Level 40: the lake is a circle of 20 cells about, 400 m: 0.503 km2.
TEST(FlatWater, ALakeInABowl) {
  const auto found = flat_areas(bowl(40), flat_rules(false));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].level_m, 40, 1e-3);
  EXPECT_NEAR(ring_area(found[0].outer), 3.14159 * 400 * 400, 0.05 * 3.14159 * 400 * 400);
  EXPECT_NEAR(ring_area(found[0].outer), 400.0 * static_cast<double>(found[0].cells), 1e-3);
  EXPECT_TRUE(found[0].holes.empty());
}

TEST(FlatWater, FloatNoiseDoesNotHideALake) {
  auto heights = bowl(40);
  std::mt19937 random(7);
  std::uniform_real_distribution<float> noise(-0.02F, 0.02F);
  for (float& z : heights.cells()) z += noise(random);
  const auto found = flat_areas(heights, flat_rules(false));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(ring_area(found[0].outer), 3.14159 * 400 * 400, 0.1 * 3.14159 * 400 * 400);
}

TEST(FlatWater, AnIslandIsAHole) {
  auto heights = bowl(40);
  for (int r = 48; r < 52; ++r) {
    for (int c = 48; c < 52; ++c) heights[r, c] = 55;
  }
  const auto found = flat_areas(heights, flat_rules(false));
  ASSERT_EQ(found.size(), 1U);
  ASSERT_EQ(found[0].holes.size(), 1U);
  EXPECT_NEAR(ring_area(found[0].holes[0]), -4 * 4 * 400, 1e-3) << "4 x 4 cells of 20 m, clockwise";
}

// A plateau, a terrace half way up a slope, a slope of 1 in 400 whose whole metres make bands of
// 20 cells: flat, and no water.
TEST(FlatWater, FlatGroundThatIsNotTheLowestIsLand) {
  Elevation plateau(frame), terrace(frame), gentle(frame);
  for (int r = 0; r < frame.rows; ++r) {
    for (int c = 0; c < frame.cols; ++c) {
      plateau[r, c] = static_cast<float>(std::min(200.0, 300 - 5 * std::hypot(r - 50, c - 50)));
      terrace[r, c] = static_cast<float>(r < 40 ? 500 - 5 * r : r < 60 ? 300 : 300 - 5 * (r - 59));
      gentle[r, c] = std::round(static_cast<float>(r) * 20 / 400 + 100);
    }
  }
  for (const bool whole : {false, true}) {
    EXPECT_TRUE(flat_areas(plateau, flat_rules(whole)).empty());
    EXPECT_TRUE(flat_areas(terrace, flat_rules(whole)).empty());
    EXPECT_TRUE(flat_areas(gentle, flat_rules(whole)).empty());
  }
}

// A lake whose level lies between two whole metres: every cell is one or the other.
TEST(FlatWater, WholeMetresThatChangeBetweenTwo) {
  auto heights = bowl(40);
  std::mt19937 random(11);
  for (float& z : heights.cells())
    z = z <= 40 ? 40 + static_cast<float>(random() % 2) : std::round(z);
  EXPECT_TRUE(flat_areas(heights, flat_rules(false)).empty());
  const auto found = flat_areas(heights, flat_rules(true));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(ring_area(found[0].outer), 3.14159 * 400 * 400, 0.15 * 3.14159 * 400 * 400);
}

// Half of it lies on the ground: still a lake. Of a lake seen by a corner alone nothing can be
// told.
TEST(FlatWater, ALakeOverTheRim) {
  Elevation half(frame), corner(frame);
  for (int r = 0; r < frame.rows; ++r) {
    for (int c = 0; c < frame.cols; ++c) {
      half[r, c] = static_cast<float>(std::max(40.0, 2 * std::hypot(r - 50, c)));
      corner[r, c] = static_cast<float>(r < 96 ? 50 + (96 - r) : 40);
    }
  }
  EXPECT_EQ(flat_areas(half, flat_rules(true)).size(), 1U);
  EXPECT_TRUE(flat_areas(corner, flat_rules(true)).empty());
}

TEST(FlatWater, VoidsTinyGroundsAndStopping) {
  auto heights = bowl(40);
  for (int r = 0; r < frame.rows; ++r) heights[r, 50] = std::numeric_limits<float>::quiet_NaN();
  EXPECT_EQ(flat_areas(heights, flat_rules(false)).size(), 2U) << "a void parts the lake";
  EXPECT_TRUE(flat_areas(Elevation(Frame{0, 0, 10, 1, 1}, 5), flat_rules(true)).empty());
  EXPECT_TRUE(flat_areas(Elevation(), flat_rules(true)).empty());
  int asked = 0;
  EXPECT_TRUE(flat_areas(Elevation(Frame{0, 0, 10, 600, 600}, 5), flat_rules(true), [&] {
                return ++asked < 2;
              }).empty());
  EXPECT_EQ(asked, 2);
}

}  // namespace
}  // namespace lodeway::terrain
