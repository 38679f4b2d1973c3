#include "lodeway/fells/skarrow.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <map>
#include <set>

#include <gtest/gtest.h>

namespace lodeway::fells {
namespace {

using mapdata::Kind;

const walking::Ground& fells() {
  static const auto made = make_skarrow_fells();
  return made;
}

double height(earth::GridPoint p) { return terrain::height_at(fells().elevation, p); }

bool is_way(Kind k) { return k == Kind::path || k == Kind::faint_path || k == Kind::track || k == Kind::road; }

TEST(Skarrow, SameSeedSameGroundOtherSeedOther) {
  const auto again = make_skarrow_fells();
  const auto a = fells().elevation.cells(), b = again.elevation.cells();
  ASSERT_EQ(a.size(), b.size());
  EXPECT_EQ(std::memcmp(a.data(), b.data(), a.size_bytes()), 0);
  ASSERT_EQ(fells().map.lines.size(), again.map.lines.size());
  for (std::size_t i = 0; i < again.map.lines.size(); ++i) EXPECT_EQ(fells().map.lines[i].points, again.map.lines[i].points);
  const auto other = make_skarrow_fells(2);
  EXPECT_NE(std::memcmp(a.data(), other.elevation.cells().data(), a.size_bytes()), 0);
}

// Smoothed lines may cut a corner of the raster: no beck may rise by more than 3 m between its ends, nor
// by more than 6 m above its lowest place so far.
TEST(Skarrow, BecksRunDownhill) {
  int becks = 0;
  for (const auto& line : fells().map.lines) {
    if (line.label.kind != Kind::stream && line.label.kind != Kind::river) continue;
    ++becks;
    EXPECT_LE(height(line.points.back()), height(line.points.front()) + 3) << line.label.name;
    double lowest = 1e9;
    for (const auto& p : line.points) {
      if (!std::isfinite(height(p))) continue;
      EXPECT_LT(height(p), lowest + 6) << line.label.name << " " << p.east_m << " " << p.north_m;
      lowest = std::min(lowest, height(p));
    }
  }
  EXPECT_GT(becks, 100);
}

TEST(Skarrow, LakesAreLevel) {
  int lakes = 0;
  for (const auto& area : fells().map.areas) {
    if (area.label.kind != Kind::lake) continue;
    ++lakes;
    std::set<float> heights;
    const auto& f = fells().elevation.frame();
    for (int r = 0; r < f.rows; ++r) {
      for (int c = 0; c < f.cols; ++c) {
        const auto p = f.centre(r, c);
        if (std::abs(p.east_m - area.outer[0].east_m) < 2500 && std::abs(p.north_m - area.outer[0].north_m) < 2500 && mapdata::contains(area, p)) {
          heights.insert(fells().elevation[r, c]);
        }
      }
    }
    EXPECT_EQ(heights.size(), 1U) << area.label.name;
  }
  EXPECT_EQ(lakes, 6);
}

TEST(Skarrow, CragsFallToTheirSide) {
  for (const auto& line : fells().map.lines) {
    if (line.label.kind != Kind::cliff) continue;
    const auto a = line.points[line.points.size() / 2 - 1], b = line.points[line.points.size() / 2 + 1];
    const double sign = line.falls == mapdata::Side::left ? -1 : 1;
    const earth::GridPoint down{sign * (b.north_m - a.north_m), -sign * (b.east_m - a.east_m)};
    const double length = std::hypot(down.east_m, down.north_m);
    const auto middle = a + 0.5 * (b - a);
    EXPECT_GT(height(middle - (40 / length) * down), height(middle + (40 / length) * down) + 15) << line.label.name;
  }
}

// From Fallow Bridge every path of the middle fells can be reached along the ways themselves.
TEST(Skarrow, WaysShareTheirJunctions) {
  std::map<std::pair<double, double>, std::set<std::size_t>> at;
  for (std::size_t l = 0; l < fells().map.lines.size(); ++l) {
    const auto& line = fells().map.lines[l];
    if (!is_way(line.label.kind)) continue;
    at[{line.points.front().east_m, line.points.front().north_m}].insert(l);
    at[{line.points.back().east_m, line.points.back().north_m}].insert(l);
  }
  std::set<std::size_t> reached;
  std::vector<std::size_t> todo;
  for (std::size_t l = 0; l < fells().map.lines.size(); ++l) {
    if (fells().map.lines[l].label.kind == Kind::road) todo.push_back(l);
  }
  while (!todo.empty()) {
    const auto l = todo.back();
    todo.pop_back();
    if (!reached.insert(l).second) continue;
    const auto& line = fells().map.lines[l];
    for (const auto& end : {line.points.front(), line.points.back()}) {
      for (const auto m : at[{end.east_m, end.north_m}]) todo.push_back(m);
    }
  }
  const auto through = [&](std::string_view name) {
    return std::ranges::any_of(reached, [&](std::size_t l) { return fells().map.lines[l].label.name == name; });
  };
  EXPECT_TRUE(through("Hause path") && through("Kell path") && through("Twin path"));
}

TEST(Skarrow, NothingDegenerate) {
  for (const auto& line : fells().map.lines) {
    ASSERT_GE(line.points.size(), 2U);
    for (std::size_t i = 1; i < line.points.size(); ++i) ASSERT_FALSE(line.points[i] == line.points[i - 1]);
  }
  for (const auto& area : fells().map.areas) ASSERT_GE(area.outer.size(), 3U);
  std::set<std::string> names;
  for (const auto& p : fells().map.points) {
    if (p.label.name.empty()) continue;
    EXPECT_TRUE(names.insert(p.label.name).second) << p.label.name;
  }
  EXPECT_GT(names.size(), 45U);
  for (const float h : fells().elevation.cells()) ASSERT_TRUE(h > 50 && h < 1000);
}

}  // namespace
}  // namespace lodeway::fells
