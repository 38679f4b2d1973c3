// Indices and lines against looking at everything, on random input (rapidcheck prints its seed).
#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/point_index.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {
namespace {

/// Uniform in [low, high), the same spread in every trial (rapidcheck's first ones are small).
template <class T>
T any(T low, T high) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange<T>(low, high));
}

/// Whole metres, so that touching, parallel and doubled segments are common.
GridPoint any_place(int half = 60) {
  return {static_cast<double>(any<int>(-half, half + 1)),
          static_cast<double>(any<int>(-half, half + 1))};
}
std::vector<GridPoint> any_line(std::size_t least = 2) {
  std::vector<GridPoint> out;
  const auto n = any<std::size_t>(least, 9);
  while (out.size() < n) {
    const auto p = any_place();
    if (out.empty() || !(out.back() == p)) out.push_back(p);
  }
  return out;
}
std::vector<LineFeature> any_lines() {
  std::vector<LineFeature> out(any<std::size_t>(0, 12));
  for (auto& l : out) l.points = any_line();
  return out;
}
double away(std::span<const GridPoint> line, GridPoint p) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const auto a = line[i], b = line[i + 1];
    least = std::min(least, earth::grid_distance_m(p, a + nearest_fraction(a, b, p) * (b - a)));
  }
  return least;
}

RC_GTEST_PROP(LineIndexLaws, NearIsTheNearestPlaceOfEachLine, ()) {
  const auto lines = any_lines();
  const auto p = any_place(90);
  const double radius = any<int>(0, 80);
  const auto near = LineIndex(lines).near(p, radius);
  RC_ASSERT(std::ranges::is_sorted(near, {}, &NearLine::ref));
  std::size_t found = 0;
  for (std::uint32_t l = 0; l < lines.size(); ++l) {
    const double judge = away(lines[l].points, p);
    if (judge > radius) continue;
    RC_ASSERT(found < near.size());
    RC_ASSERT(near[found].ref.line == l);
    RC_ASSERT(std::abs(near[found].distance_m - judge) < 1e-9);
    const Measured measured(lines[l].points);
    RC_ASSERT(earth::grid_distance_m(measured.at(near[found].along_m), near[found].at) < 1e-9);
    ++found;
  }
  RC_ASSERT(found == near.size());
}

RC_GTEST_PROP(LineIndexLaws, CrossingsAreThoseOfEverySegment, ()) {
  const auto lines = any_lines();
  const auto a = any_place(90), b = any_place(90);
  RC_PRE(!(a == b));
  const auto found = LineIndex(lines).crossings(a, b);
  std::vector<SegmentRef> refs, judge;
  for (const auto& c : found) {
    refs.push_back(c.ref);
    const auto& p = lines[c.ref.line].points;
    const std::vector<GridPoint> met{p[c.ref.segment], p[c.ref.segment + 1]}, own{a, b};
    RC_ASSERT(away(met, c.at) < 1e-9);
    RC_ASSERT(away(own, c.at) < 1e-9);
  }
  RC_ASSERT(std::ranges::is_sorted(found, {}, &Crossing::at_fraction));
  // Exact in whole metres: the ends of each lie on both sides of the other, or on it.
  for (std::uint32_t l = 0; l < lines.size(); ++l) {
    const auto& p = lines[l].points;
    for (std::uint32_t s = 0; s + 1 < p.size(); ++s) {
      const auto d = b - a, e = p[s + 1] - p[s];
      if (cross(d, e) == 0) continue;
      if (cross(d, p[s] - a) * cross(d, p[s + 1] - a) <= 0 &&
          cross(e, a - p[s]) * cross(e, b - p[s]) <= 0)
        judge.push_back({l, s});
    }
  }
  std::ranges::sort(refs);
  RC_ASSERT(refs == judge);
}

RC_GTEST_PROP(PointIndexLaws, NearALineIsWhatLookingAtAllFinds, ()) {
  std::vector<GridPoint> points(any<std::size_t>(0, 60));
  for (auto& p : points) p = any_place(40);
  const auto line = any_line();
  const double radius = any<int>(0, 50);
  std::vector<std::uint32_t> judge;
  for (std::uint32_t i = 0; i < points.size(); ++i) {
    if (away(line, points[i]) <= radius) judge.push_back(i);
  }
  RC_ASSERT(PointIndex(points).near_line(line, radius) == judge);
}

// The bound is kept for places between the points too, both ways.
RC_GTEST_PROP(Simplify, NeverMovesALineFurtherThanStated, ()) {
  const auto line = any_line();
  const double most = any<int>(0, 40);
  const auto fewer = simplify(line, most);
  RC_ASSERT(fewer.front() == line.front() && fewer.back() == line.back());
  RC_ASSERT(fewer.size() >= 2 && fewer.size() <= line.size());
  const auto within = [&](const std::vector<GridPoint>& of, const std::vector<GridPoint>& from) {
    const Measured measured(of);
    for (int k = 0; k <= 50; ++k)
      RC_ASSERT(away(from, measured.at(measured.length_m() * k / 50)) <= most + 1e-9);
  };
  within(line, fewer);
}

TEST(Measured, PlacesAndPiecesOfABentLine) {
  const std::vector<GridPoint> line{{0, 0}, {30, 40}, {30, 100}};  // 50 m, then 60 m
  const Measured m(line);
  EXPECT_DOUBLE_EQ(m.length_m(), 110);
  EXPECT_EQ(m.at(25), (GridPoint{15, 20}));
  EXPECT_EQ(m.at(50), (GridPoint{30, 40}));
  EXPECT_EQ(m.at(500), (GridPoint{30, 100}));
  EXPECT_EQ(m.segment(50), 0U);
  EXPECT_EQ(m.segment(51), 1U);
  EXPECT_EQ(m.piece(25, 80), (std::vector<GridPoint>{{15, 20}, {30, 40}, {30, 70}}));
  EXPECT_EQ(m.piece(80, 25), (std::vector<GridPoint>{{30, 70}, {30, 40}, {15, 20}}));
  EXPECT_EQ(m.piece(-5, 50), (std::vector<GridPoint>{{0, 0}, {30, 40}}));
}

}  // namespace
}  // namespace lodeway::mapdata
