#include "lodeway/terrain/contours.hpp"

#include <cmath>
#include <limits>
#include <map>
#include <optional>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "lodeway/numeric/random.hpp"
#include "terrain/ground.hpp"

namespace lodeway::terrain {
namespace {

double signed_area(const std::vector<earth::GridPoint>& ring) {
  double sum = 0;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    sum += ring[j].east_m * ring[i].north_m - ring[i].east_m * ring[j].north_m;
  }
  return sum / 2;
}

// A round hill: contour h of a cone of slope 1 is a circle, area pi (500 - h)^2. The chords of
// linear interpolation on a 10 m grid lose at most one part in a thousand of it here.
TEST(Contours, ConeGivesCircles) {
  Elevation cone(Frame{0, 1000, 10, 100, 100});
  for (int r = 0; r < 100; ++r) {
    for (int c = 0; c < 100; ++c) {
      const auto p = cone.frame().centre(r, c);
      cone[r, c] = static_cast<float>(500 - std::hypot(p.east_m - 500, p.north_m - 500));
    }
  }
  int rings = 0;
  for (const auto& line : contours(cone, 50)) {
    if (line.height_m < 50) continue;  // cut by the rim
    ASSERT_TRUE(line.closed) << line.height_m;
    const double radius = 500 - line.height_m;
    EXPECT_NEAR(signed_area(line.points), -std::acos(-1.0) * radius * radius, 3.2 * radius);
    ++rings;
  }
  EXPECT_EQ(rings,
            9);  // 50 to 450: higher ground is inside, on the right: clockwise, area negative
}

TEST(Contours, OpenLinesEndAtRimAndVoids) {
  Elevation slope(Frame{0, 100, 10, 10, 10});
  for (int r = 0; r < 10; ++r) {
    for (int c = 0; c < 10; ++c) slope[r, c] = static_cast<float>(c * 10);
  }
  auto lines = contours(slope, 25);
  ASSERT_EQ(lines.size(), 3U);
  for (const auto& l : lines) {
    EXPECT_FALSE(l.closed);
    EXPECT_LT(l.points.front().north_m,
              l.points.back().north_m);  // going north: east is higher, right
    for (const auto& p : l.points) EXPECT_NEAR(p.east_m, 5 + l.height_m, 1e-9);
  }
  slope[5, 5] = NAN;
  EXPECT_EQ(contours(slope, 50).size(), 2U);  // the 50 m line is broken in two
}

// Every crossing of a level by an edge of the grid lies on exactly one line: counted on random
// ground.
TEST(Contours, EveryCrossingOnceOnRandomGround) {
  numeric::Random random(7);
  Elevation z(Frame{0, 400, 10, 40, 40});
  for (auto& v : z.cells()) v = static_cast<float>(100 * random.uniform());
  std::map<double, int> expected, found;
  const auto count = [&](float a, float b) {
    for (int k = 0; k <= 10; ++k) {
      const double level = 10.0 * k;
      if ((static_cast<double>(a) >= level) != (static_cast<double>(b) >= level)) ++expected[level];
    }
  };
  for (int r = 0; r < 40; ++r) {
    for (int c = 0; c < 40; ++c) {
      if (c + 1 < 40) count(z[r, c], z[r, c + 1]);
      if (r + 1 < 40) count(z[r, c], z[r + 1, c]);
    }
  }
  for (const auto& l : contours(z, 10)) found[l.height_m] += static_cast<int>(l.points.size());
  EXPECT_EQ(found, expected);
}

double total_length(const std::vector<Contour>& lines) {
  double sum = 0;
  for (const auto& l : lines) {
    for (std::size_t i = 1; i < l.points.size(); ++i) {
      sum += earth::grid_distance_m(l.points[i - 1], l.points[i]);
    }
    if (l.closed) sum += earth::grid_distance_m(l.points.back(), l.points.front());
  }
  return sum;
}

// Mirrored and turned ground has the same lines: as many, as long; the higher ground stays on the
// right.
RC_GTEST_PROP(ContoursLaw, MirroredAndTurnedGround, ()) {
  const auto z =
      test::noise(15, 22, *rc::gen::arbitrary<std::uint64_t>(), 0, *rc::gen::element(0.0, 0.1));
  const auto plain = contours(z, 7), mirror = contours(test::mirrored(z), 7),
             turn = contours(test::turned(z), 7);
  RC_ASSERT(plain.size() == mirror.size() && plain.size() == turn.size());
  RC_ASSERT(std::abs(total_length(plain) - total_length(mirror)) < 1e-6);
  RC_ASSERT(std::abs(total_length(plain) - total_length(turn)) < 1e-6);
}

/// The higher end of the edge of the grid that a place lies on; nothing near a corner.
std::optional<earth::GridPoint> higher_end(const Elevation& z, earth::GridPoint p) {
  const auto& f = z.frame();
  const double row = f.row_of(p), col = f.col_of(p);
  const auto off = [](double v) { return std::abs(v - std::round(v)); };
  if (std::max(off(row), off(col)) < 1e-6) return std::nullopt;
  const bool down = off(row) > off(col);  // the edge leads from row to row
  const int r = static_cast<int>(down ? std::floor(row) : std::round(row));
  const int c = static_cast<int>(down ? std::round(col) : std::floor(col));
  const int s = r + (down ? 1 : 0), d = c + (down ? 0 : 1);
  return z[r, c] > z[s, d] ? f.centre(r, c) : f.centre(s, d);
}

RC_GTEST_PROP(ContoursLaw, HigherGroundOnTheRightAndOnTheLevel, ()) {
  const auto z = test::hills(25, 25, *rc::gen::arbitrary<std::uint64_t>());
  for (const auto& l : contours(z, 10)) {
    for (std::size_t i = 1; i < l.points.size(); ++i) {
      const auto a = l.points[i - 1], b = l.points[i];
      RC_ASSERT(std::abs(height_at(z, a) - l.height_m) <
                1e-3);  // on an edge of the grid: linear there
      const auto high = higher_end(z, a);
      if (!high) continue;
      const auto on = b - a, side = *high - a;
      RC_ASSERT(on.east_m * side.north_m - on.north_m * side.east_m < 0);
    }
  }
}

// A constant of whole intervals moves the names of the lines and nothing else.
RC_GTEST_PROP(ContoursLaw, AConstantChangesNothing, ()) {
  auto z = test::noise(12, 12, *rc::gen::arbitrary<std::uint64_t>(), 200);
  const auto before = contours(z, 8);
  for (auto& v : z.cells()) v += 512;  // exact in 32 bits
  const auto after = contours(z, 8);
  RC_ASSERT(before.size() == after.size());
  for (std::size_t i = 0; i < before.size(); ++i) {
    RC_ASSERT(after[i].height_m == before[i].height_m + 512);
    RC_ASSERT(after[i].points == before[i].points);
  }
}

TEST(Contours, FiguresThatAreNoHeights) {
  auto z = test::noise(9, 9, 1);
  z[4, 4] = std::numeric_limits<float>::infinity();
  z[2, 2] = -3e38F;
  for (const auto& l : contours(z, 10)) {
    EXPECT_GE(l.height_m, 0);
    EXPECT_LE(l.height_m, 100);
  }
  EXPECT_TRUE(contours(z, 1e-9).empty());  // beyond four million intervals
}

// More levels than 16 bits count: a slope of 300 m, a level each 1/128 m.
TEST(Contours, VeryManyLevels) {
  Elevation slope(Frame{0, 30, 10, 3, 4});
  for (int r = 0; r < 3; ++r) {
    for (int c = 0; c < 4; ++c) slope[r, c] = 100.0F * static_cast<float>(c) + 0.004F;
  }
  const auto lines = contours(slope, 0.0078125);
  ASSERT_EQ(lines.size(), 38'400U);  // 300 m / 0.0078125 m, the lowest and highest heights are none
  for (std::size_t k = 0; k < lines.size(); k += 997) {
    ASSERT_EQ(lines[k].points.size(), 3U);
    const double east = 5 + (lines[k].height_m - static_cast<double>(0.004F)) / 10;
    for (const auto& p : lines[k].points) EXPECT_NEAR(p.east_m, east, 1e-4);
  }
}

TEST(Contours, NothingToDraw) {
  EXPECT_TRUE(contours(Elevation(Frame{0, 10, 10, 1, 1}, 5), 10).empty());
  EXPECT_TRUE(contours(Elevation(Frame{0, 100, 10, 10, 10}, NAN), 10).empty());
  EXPECT_TRUE(contours(Elevation(Frame{0, 100, 10, 10, 10}, 20), 10).empty());  // flat at a level
}

}  // namespace
}  // namespace lodeway::terrain
