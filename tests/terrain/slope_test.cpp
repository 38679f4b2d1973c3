#include "lodeway/terrain/slope.hpp"

#include <array>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "lodeway/terrain/profile.hpp"
#include "terrain/ground.hpp"

namespace lodeway::terrain {
namespace {

Elevation window(double cell, std::array<float, 9> z) {
  Elevation out(Frame{1000, 2000, cell, 3, 3});
  std::copy(z.begin(), z.end(), out.cells().begin());
  return out;
}

// The classic 3 x 3 windows with Horn's method (computed apart from this code; the first two
// are the usual manual's examples, 75.25762 and 92.64 from memory).
TEST(Slope, HornWindows) {
  struct Row {
    double cell;
    std::array<float, 9> z;
    double slope, aspect;
  };
  const Row rows[] = {{5, {50, 45, 50, 30, 30, 30, 8, 10, 10}, 75.2577, 180.7538},
                      {1, {101, 92, 85, 101, 92, 85, 101, 91, 84}, 82.9909, 92.6425},
                      {10, {10, 12, 9, 11, 15, 8, 7, 9, 6}, 10.2194, 146.3099}};
  for (const auto& r : rows) {
    const auto g = gradient(window(r.cell, r.z), 1, 1);
    EXPECT_NEAR(slope_deg(g), r.slope, 5e-5);
    EXPECT_NEAR(fall_line(g).in_degrees(), r.aspect, 5e-5);
  }
}

// A plane dipping 30 degrees towards 120: exact by definition.
TEST(Slope, PlaneKeepsDipAndDirection) {
  Elevation plane(Frame{0, 100, 10, 10, 10});
  const double dip = std::tan(30 * std::acos(-1.0) / 180);
  for (int r = 0; r < 10; ++r) {
    for (int c = 0; c < 10; ++c) {
      const auto p = plane.frame().centre(r, c);
      const double along =
          p.east_m * std::sin(2.0943951023931953) + p.north_m * std::cos(2.0943951023931953);
      plane[r, c] = static_cast<float>(500 - dip * along);
    }
  }
  const auto g = gradient_at(plane, {47, 52});
  EXPECT_NEAR(slope_deg(g), 30, 1e-3);  // heights are kept in 32 bits
  EXPECT_NEAR(fall_line(g).in_degrees(), 120, 1e-3);
}

// An even slope is the same at the rim, in the corners and beside a void as anywhere.
TEST(Slope, PlaneIsExactAtRimAndVoids) {
  Elevation plane(Frame{0, 100, 10, 6, 6});
  for (int r = 0; r < 6; ++r) {
    for (int c = 0; c < 6; ++c) plane[r, c] = static_cast<float>(500 + 5 * c - 2 * r);
  }
  plane[2, 3] = NAN;
  plane[5, 0] = std::numeric_limits<float>::infinity();
  for (int r = 0; r < 6; ++r) {
    for (int c = 0; c < 6; ++c) {
      const bool known = is_height(plane[r, c]);
      const auto g = gradient(plane, r, c);
      if (known) {
        EXPECT_NEAR(g.east, 0.5, 1e-12) << r << "," << c;
        EXPECT_NEAR(g.north, 0.2, 1e-12) << r << "," << c;
      } else {
        EXPECT_TRUE(std::isnan(g.east) && std::isnan(g.north));
      }
    }
  }
}

TEST(Slope, RasterAgreesWithSingleCells) {
  auto z = test::noise(30, 41, 5, 0, 0.02);
  z[7, 7] = -std::numeric_limits<float>::infinity();
  const auto slopes = slope_raster(z);
  for (int r = 0; r < 30; ++r) {
    for (int c = 0; c < 41; ++c) {
      const auto g = gradient(z, r, c);
      if (!is_height(z[r, c])) {
        EXPECT_TRUE((std::isnan(slopes[r, c])));
        continue;
      }
      EXPECT_NEAR((slopes[r, c]), slope_deg(g), 1e-4);
    }
  }
}

RC_GTEST_PROP(SlopeLaw, MirroredAndTurnedGroundTurnsTheFall, ()) {
  const auto z = test::hills(9, 12, *rc::gen::arbitrary<std::uint64_t>());
  const auto g = [&](const Elevation& ground, int r, int c) { return gradient(ground, r, c); };
  const auto mirror = test::mirrored(z), turn = test::turned(z);
  auto higher = z;
  for (auto& v : higher.cells()) v += 1024;
  for (int r = 0; r < 9; ++r) {
    for (int c = 0; c < 12; ++c) {
      const auto a = g(z, r, c), m = g(mirror, r, 11 - c), t = g(turn, c, 8 - r);
      RC_ASSERT(std::abs(a.east + m.east) < 1e-12 && std::abs(a.north - m.north) < 1e-12);
      RC_ASSERT(std::abs(a.north - t.east) < 1e-12 && std::abs(a.east + t.north) < 1e-12);
      // 1024 m more leaves 24 - 11 bits for the fraction: up to 1.2e-4 m wrong, eight times, over
      // 80 m.
      RC_ASSERT(std::abs(g(higher, r, c).east - a.east) < 1.3e-5);
    }
  }
}

TEST(Slope, VoidsStayVoids) {
  auto z = window(10, {1, 2, 3, 4, NAN, 6, 7, 8, 9});
  EXPECT_TRUE(std::isnan(slope_raster(z)[1, 1]));
  EXPECT_TRUE(std::isfinite(slope_raster(z)[0, 0]));
  EXPECT_TRUE(std::isnan(slope_deg_at(z, {1015, 1985})));
  EXPECT_TRUE(std::isnan(height_at(z, {1012, 1988})));
}

TEST(Raster, CornersAndShape) {
  Elevation z(Frame{1000, 2000, 10, 2, 3});
  z[0, 0] = 1;  // north-west
  z[0, 2] = 2;  // north-east
  z[1, 0] = 3;  // south-west
  z[1, 2] = 4;
  EXPECT_EQ(height_at(z, {1005, 1995}), 1);
  EXPECT_EQ(height_at(z, {1025, 1995}), 2);
  EXPECT_EQ(height_at(z, {1005, 1985}), 3);
  EXPECT_EQ(height_at(z, {1025, 1985}), 4);
  EXPECT_EQ(z.frame().cell_of({1005, 1985}), std::pair(1, 0));
  EXPECT_TRUE(std::isnan(height_at(z, {999, 1990})));
}

// The Swiss federal geoportal's published profile test: ascent 220, descent 120, 397.86 m along the
// slope.
TEST(Profile, PublishedTotals) {
  const auto p = profile_of({{0, 100}, {50, 210}, {150, 90}, {200, 200}});
  EXPECT_NEAR(p.ascent_m, 220, 1e-9);
  EXPECT_NEAR(p.descent_m, 120, 1e-9);
  EXPECT_NEAR(p.along_slope_m, 397.86, 0.006);  // printed there cut off: 397.8659
}

// No step is longer than a cell, and odd lines have an answer.
TEST(Profile, StepsAndOddLines) {
  const auto z = test::hills(40, 40, 2);
  const auto p = profile(z, {{13, 17}, {311, 250}, {20, 390}});
  for (std::size_t i = 1; i < p.points.size(); ++i) {
    EXPECT_LE(p.points[i].at_m - p.points[i - 1].at_m, 10 + 1e-9);
  }
  EXPECT_NEAR(p.points.back().at_m, std::hypot(298, 233) + std::hypot(291, 140), 1e-9);
  const double h0 = p.points.front().height_m, h1 = p.points.back().height_m;
  EXPECT_NEAR(p.ascent_m - p.descent_m, h1 - h0, 1e-9);
  EXPECT_TRUE(profile(z, {{0, 5}, {NAN, 5}}).touches_void);
  EXPECT_TRUE(profile(z, {{0, 5}, {1e300, 5}}).touches_void);
  EXPECT_TRUE(profile(z, {}).points.empty());
}

TEST(Profile, SaysWhenItMeetsAVoid) {
  auto z = window(10, {1, 2, 3, 4, 5, 6, 7, 8, NAN});
  EXPECT_FALSE(profile(z, {{1005, 1995}, {1025, 1995}}).touches_void);
  EXPECT_TRUE(profile(z, {{1005, 1995}, {1025, 1975}}).touches_void);
}

}  // namespace
}  // namespace lodeway::terrain
