#include "lodeway/fells/skarrow.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <functional>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

#include "lodeway/mapdata/polyline.hpp"
#include "support/support.hpp"

namespace lodeway::fells {
namespace {

using mapdata::Kind;

const walking::Ground& fells() {
  static const auto made = make_skarrow_fells();
  return made;
}

double height(earth::GridPoint p) { return terrain::height_at(fells().elevation, p); }

bool is_way(Kind k) {
  return k == Kind::path || k == Kind::faint_path || k == Kind::track || k == Kind::road;
}

/// Runs the last block first.
class Backwards final : public numeric::Parallel {
 public:
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override {
    while (blocks > 0) run(--blocks);
  }
};

TEST(Skarrow, SameSeedSameGroundOtherSeedOther) {
  const auto begin = std::chrono::steady_clock::now();
  Backwards backwards;
  const auto again = make_skarrow_fells(1, backwards);
  std::printf("made in %.1f s\n",
              std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
  const auto a = fells().elevation.cells(), b = again.elevation.cells();
  ASSERT_EQ(a.size(), b.size());
  EXPECT_EQ(std::memcmp(a.data(), b.data(), a.size_bytes()), 0);
  ASSERT_EQ(fells().map.lines.size(), again.map.lines.size());
  for (std::size_t i = 0; i < again.map.lines.size(); ++i)
    EXPECT_EQ(fells().map.lines[i].points, again.map.lines[i].points);
  ASSERT_EQ(fells().map.areas.size(), again.map.areas.size());
  for (std::size_t i = 0; i < again.map.areas.size(); ++i) {
    EXPECT_EQ(fells().map.areas[i].label.name, again.map.areas[i].label.name);
    EXPECT_EQ(fells().map.areas[i].outer, again.map.areas[i].outer);
  }
  const auto other = make_skarrow_fells(2);
  EXPECT_NE(std::memcmp(a.data(), other.elevation.cells().data(), a.size_bytes()), 0);
}

// The raster is carved along the drawn becks and rounded to 0.01 m: bilinear heights at a beck's
// vertices may rise above its lowest place so far by no more than 0.05 m; beside a lake, whose rim
// is left standing, by 1 m.
TEST(Skarrow, BecksRunDownhill) {
  int becks = 0, vertices = 0, rising = 0;
  for (const auto& line : fells().map.lines) {
    if (line.label.kind != Kind::stream && line.label.kind != Kind::river) continue;
    ++becks;
    double lowest = 1e9;
    for (const auto& p : line.points) {
      if (!std::isfinite(height(p))) continue;
      ++vertices;
      rising += height(p) > lowest + 0.05;
      ASSERT_LE(height(p), lowest + 1) << line.label.name << " " << p.east_m << " " << p.north_m;
      lowest = std::min(lowest, height(p));
    }
  }
  EXPECT_LT(rising, vertices / 500);
  EXPECT_GT(becks, 100);
  EXPECT_LT(becks, 500);
}

/// Heights of the cells in a lake whose centre and four neighbours' centres lie within its shore.
std::set<float> heights_in(const mapdata::AreaFeature& lake) {
  std::set<float> out;
  const auto& f = fells().elevation.frame();
  const auto inside = [&](int r, int c) {
    return f.holds(r, c) && mapdata::contains(lake, f.centre(r, c));
  };
  double south = 1e9, north = -1e9, west = 1e9, east = -1e9;
  for (const auto& p : lake.outer) {
    south = std::min(south, p.north_m), north = std::max(north, p.north_m);
    west = std::min(west, p.east_m), east = std::max(east, p.east_m);
  }
  const auto [top, left] = f.cell_of({west, north});
  const auto [bottom, right] = f.cell_of({east, south});
  for (int r = top; r <= bottom; ++r) {
    for (int c = left; c <= right; ++c) {
      if (inside(r, c) && inside(r - 1, c) && inside(r + 1, c) && inside(r, c - 1) &&
          inside(r, c + 1))
        out.insert(fells().elevation[r, c]);
    }
  }
  return out;
}

TEST(Skarrow, LakesAreLevel) {
  int lakes = 0;
  for (const auto& area : fells().map.areas) {
    if (area.label.kind != Kind::lake) continue;
    ++lakes;
    EXPECT_EQ(heights_in(area).size(), 1U) << area.label.name;
  }
  EXPECT_EQ(lakes, 6);
}

// Every beck ends where another begins or passes, on a shore, or at the map's rim; one that leaves
// each lake starts on its shore, within 1 m of its level there.
TEST(Skarrow, BecksJoin) {
  std::set<std::pair<double, double>> starts, shores;
  for (const auto& line : fells().map.lines) {
    const auto k = line.label.kind;
    if (k == Kind::stream || k == Kind::river)
      starts.insert({line.points.front().east_m, line.points.front().north_m});
    if (k == Kind::shore)
      for (const auto& p : line.points) shores.insert({p.east_m, p.north_m});
  }
  const auto& f = fells().elevation.frame();
  for (const auto& line : fells().map.lines) {
    if (line.label.kind != Kind::stream && line.label.kind != Kind::river) continue;
    const auto p = line.points.back();
    const bool rim = p.east_m < f.west_m + 10 || p.east_m > f.east_m() - 10 ||
                     p.north_m < f.south_m() + 10 || p.north_m > f.north_m - 10;
    const std::pair at{p.east_m, p.north_m};
    EXPECT_TRUE(rim || starts.contains(at) || shores.contains(at))
        << line.label.name << " " << p.east_m << " " << p.north_m;
  }
  for (const auto& area : fells().map.areas) {
    if (area.label.kind != Kind::lake) continue;
    const double level = static_cast<double>(*heights_in(area).begin());
    int outlets = 0;
    for (const auto& p : area.outer) {
      if (!starts.contains({p.east_m, p.north_m})) continue;
      ++outlets;
      EXPECT_NEAR(height(p), level, 1.0) << area.label.name;
    }
    EXPECT_EQ(outlets, 1) << area.label.name;
  }
}

// All along a crag, not only in its middle: from 10 m above the line to 20 m below it the ground
// falls by more than 10 m to the side that the line says, and somewhere by more than 30 m (45
// degrees).
TEST(Skarrow, CragsFallToTheirSide) {
  int crags = 0;
  for (const auto& line : fells().map.lines) {
    if (line.label.kind != Kind::cliff) continue;
    ++crags;
    EXPECT_GT(mapdata::length_m(line.points), 80);
    double steepest = 0;
    for (std::size_t i = 1; i + 1 < line.points.size(); ++i) {
      const auto a = line.points[i - 1], b = line.points[i + 1];
      const double sign = line.falls == mapdata::Side::left ? -1 : 1;
      const earth::GridPoint down{sign * (b.north_m - a.north_m), -sign * (b.east_m - a.east_m)};
      const double length = std::hypot(down.east_m, down.north_m);
      const double fall = height(line.points[i] - (10 / length) * down) -
                          height(line.points[i] + (20 / length) * down);
      EXPECT_GT(fall, 10) << line.label.name << " " << line.points[i].east_m << " "
                          << line.points[i].north_m;
      steepest = std::max(steepest, fall / 30);
    }
    EXPECT_GT(steepest, 1.0) << line.label.name;
  }
  EXPECT_GE(crags, 8);
}

const mapdata::PointFeature& point(const std::string& name) {
  const auto found =
      std::ranges::find_if(fells().map.points, [&](const auto& p) { return p.label.name == name; });
  if (found == fells().map.points.end()) throw std::runtime_error("no " + name);
  return *found;
}

/// Lines of some kinds, with what they are looked for near.
template <class Which>
double nearest_line_m(earth::GridPoint p, Which&& which) {
  double nearest = 1e9;
  for (const auto& line : fells().map.lines) {
    if (!which(line.label.kind)) continue;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      const auto a = line.points[i - 1], b = line.points[i];
      const double t = mapdata::nearest_fraction(a, b, p);
      nearest = std::min(nearest, earth::grid_distance_m(p, a + t * (b - a)));
    }
  }
  return nearest;
}

// Two becks of one kind, side by side for a kilometre and more, their courses within 25 degrees:
// whoever comes from the west and counts short takes the first for the second.
TEST(SkarrowHardCases, TwinBecksInviteParallelError) {
  std::vector<earth::GridPoint> near, far;
  for (const auto& line : fells().map.lines) {
    if (line.label.name == "Near Twin Beck")
      near.insert(near.end(), line.points.begin(), line.points.end());
    if (line.label.name == "Far Twin Beck")
      far.insert(far.end(), line.points.begin(), line.points.end());
  }
  ASSERT_GT(near.size(), 20U);
  ASSERT_GT(far.size(), 20U);
  const auto east_at = [](const std::vector<earth::GridPoint>& line, double north) {
    double east = std::nan("");
    for (std::size_t i = 1; i < line.size(); ++i) {
      const auto a = line[i - 1], b = line[i];
      if ((a.north_m - north) * (b.north_m - north) > 0 || a.north_m == b.north_m) continue;
      east = a.east_m + (north - a.north_m) / (b.north_m - a.north_m) * (b.east_m - a.east_m);
    }
    return east;
  };
  int beside = 0;
  double least = 1e9, most = 0;
  for (double north = 6050900; north < 6052700; north += 50) {
    const double apart = east_at(far, north) - east_at(near, north);
    if (!std::isfinite(apart)) continue;
    least = std::min(least, apart);
    most = std::max(most, apart);
    beside += apart > 200 && apart < 600;
  }
  EXPECT_GE(beside * 50, 1000) << "metres of northing side by side";
  EXPECT_GT(least, 100);
  EXPECT_LT(most, 800);
}

// The plateau: all along its edge the ground drops by more than 20 m within 50 m, 40 degrees and
// more. For half a kilometre in the west it is level up to there (by 20 m over 135 m), so that in
// cloud nothing but the compass warns; further east it rolls over first.
TEST(SkarrowHardCases, PlateauBreaksOffAtAnEdge) {
  double edge_m = 0;
  for (const auto& line : fells().map.lines) {
    if (line.label.name != "Tarrow Edge" || line.label.kind != Kind::cliff) continue;
    edge_m += mapdata::length_m(line.points);
    int level = 0, drops = 0, all = 0;
    for (std::size_t i = 2; i + 2 < line.points.size(); ++i) {
      const auto a = line.points[i - 2], b = line.points[i + 2];
      const double sign = line.falls == mapdata::Side::left ? -1 : 1;
      const double length = earth::grid_distance_m(a, b);
      const earth::GridPoint down{sign * (b.north_m - a.north_m) / length,
                                  -sign * (b.east_m - a.east_m) / length};
      const auto p = line.points[i];
      ++all;
      level += std::abs(height(p - 150 * down) - height(p - 15 * down)) < 0.15 * 135;
      drops += height(p - 10 * down) - height(p + 40 * down) > 20;
    }
    EXPECT_GT(level, 0.3 * all);  // of 1.8 km
    EXPECT_GT(drops, 0.8 * all);
  }
  EXPECT_GT(edge_m, 1500);
}

// A hut on a moor: for 300 m around the ground rises or falls by 12 m at the most, no way, wall or
// fence leads to within 600 m of it.
TEST(SkarrowHardCases, AHutOnAFeaturelessMoor) {
  const auto& hut = point("Ravock Hut");
  EXPECT_EQ(hut.label.kind, Kind::hut);
  const double own = height(hut.at);
  for (double r = 50; r <= 300; r += 50) {
    for (int k = 0; k < 16; ++k) {
      const double turn = k * 0.392699;
      EXPECT_NEAR(height({hut.at.east_m + r * std::sin(turn), hut.at.north_m + r * std::cos(turn)}),
                  own, 12);
    }
  }
  EXPECT_GT(nearest_line_m(hut.at,
                           [](Kind k) { return is_way(k) || k == Kind::wall || k == Kind::fence; }),
            600);
}

// Below crags lies scree; into every lake runs a beck; walls on the fellside keep to the contour or
// go straight over; folds and farms are there.
TEST(SkarrowHardCases, WhatBelongsTogetherIsTogether) {
  int with_scree = 0, crags = 0;
  for (const auto& line : fells().map.lines) {
    if (line.label.kind != Kind::cliff) continue;
    ++crags;
    bool scree = false;
    for (const auto& area : fells().map.areas) {
      if (area.label.kind != Kind::scree && area.label.kind != Kind::boulders) continue;
      for (const auto& p : line.points) {
        for (const auto& q : area.outer) scree = scree || earth::grid_distance_m(p, q) < 60;
      }
    }
    with_scree += scree;
  }
  EXPECT_GE(with_scree, crags - 1);
  for (const auto& area : fells().map.areas) {
    if (area.label.kind != Kind::lake) continue;
    int inlets = 0;
    for (const auto& line : fells().map.lines) {
      if (line.label.kind != Kind::stream && line.label.kind != Kind::river) continue;
      inlets += std::ranges::find(area.outer, line.points.back()) != area.outer.end();
    }
    EXPECT_GE(inlets, 1) << area.label.name;
  }
  const auto of = [](Kind k) {
    return std::ranges::count_if(fells().map.points,
                                 [&](const auto& p) { return p.label.kind == k; });
  };
  EXPECT_GE(of(Kind::sheepfold), 5);
  EXPECT_GE(of(Kind::hut), 1);
  EXPECT_GE(of(Kind::bridge), 10);
  EXPECT_GE(of(Kind::ford), 10);
}

// A saddle: the ground rises on two sides and falls on two within 200 m. A summit: nothing higher
// for 100 m.
TEST(Skarrow, SummitsAndSaddlesAreWhatTheySay) {
  int summits = 0, saddles = 0;
  for (const auto& p : fells().map.points) {
    const auto around = [&](double radius) {
      std::vector<double> out;
      for (int i = 0; i < 72; ++i)
        out.push_back(height(earth::step(p.at, units::GridBearing::degrees(5 * i), radius)) -
                      height(p.at));
      return out;
    };
    if (p.label.kind == Kind::summit) {
      ++summits;
      EXPECT_NEAR(p.height_m, height(p.at), 0.51) << p.label.name;
      for (const double radius : {20.0, 50.0, 95.0})
        EXPECT_LE(std::ranges::max(around(radius)), 0) << p.label.name << radius;
    }
    if (p.label.kind == Kind::saddle) {
      ++saddles;
      int changes = 0;
      for (const double radius : {80.0, 140.0, 200.0}) {
        const auto ring = around(radius);
        int found = 0;
        for (std::size_t i = 0; i < ring.size(); ++i)
          found += (ring[i] > 0) != (ring[(i + 1) % ring.size()] > 0);
        changes = std::max(changes, found);
      }
      EXPECT_GE(changes, 4) << p.label.name;
    }
  }
  EXPECT_GE(summits, 15);
  EXPECT_GE(saddles, 7);
}

// From the road every way can be reached along ways whose ends coincide.
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
  for (std::size_t l = 0; l < fells().map.lines.size(); ++l) {
    const auto& line = fells().map.lines[l];
    if (is_way(line.label.kind) && !reached.contains(l))
      ADD_FAILURE() << "not reached: " << line.label.name << " " << line.points.front().east_m
                    << " " << line.points.front().north_m;
  }
  const auto through = [&](std::string_view name) {
    return std::ranges::any_of(
        reached, [&](std::size_t l) { return fells().map.lines[l].label.name == name; });
  };
  EXPECT_TRUE(through("Hause path") && through("Kell path") && through("Twin path"));
}

// Bridges and fords are vertices of a way and of the water under it.
TEST(Skarrow, CrossingsAreShared) {
  int crossings = 0;
  for (const auto& p : fells().map.points) {
    if (p.label.kind != Kind::bridge && p.label.kind != Kind::ford) continue;
    ++crossings;
    bool way = false, water = false;
    for (const auto& line : fells().map.lines) {
      if (std::ranges::find(line.points, p.at) == line.points.end()) continue;
      way |= is_way(line.label.kind);
      water |= line.label.kind == Kind::stream || line.label.kind == Kind::river;
    }
    EXPECT_TRUE(way && water) << p.at.east_m << " " << p.at.north_m;
  }
  EXPECT_GT(crossings, 25);
}

TEST(Skarrow, NothingDegenerate) {
  for (const auto& line : fells().map.lines) {
    ASSERT_GE(line.points.size(), 2U);
    for (std::size_t i = 1; i < line.points.size(); ++i)
      ASSERT_FALSE(line.points[i] == line.points[i - 1]);
  }
  std::set<std::string> area_names;
  for (const auto& area : fells().map.areas) {
    ASSERT_GE(area.outer.size(), 3U);
    double twice = 0;
    for (std::size_t i = 0; i < area.outer.size(); ++i) {
      const auto a = area.outer[i] - area.outer[0],
                 b = area.outer[(i + 1) % area.outer.size()] - area.outer[0];
      twice += a.east_m * b.north_m - b.east_m * a.north_m;
    }
    EXPECT_GT(twice / 2, 500) << area.label.name;  // counter-clockwise, m^2
    const bool fresh = area.label.name.empty() || area_names.insert(area.label.name).second;
    EXPECT_TRUE(fresh) << area.label.name;
  }
  std::set<std::string> names;
  for (const auto& p : fells().map.points) {
    if (p.label.name.empty()) continue;
    EXPECT_TRUE(names.insert(p.label.name).second) << p.label.name;
  }
  EXPECT_GT(names.size(), 45U);
  for (const float h : fells().elevation.cells()) ASSERT_TRUE(h > 50 && h < 1000);
}

// The table in the module's README, row by row, against the ground: within 1 m.
TEST(Skarrow, GazetteerIsTrue) {
  std::ifstream readme(support::tests_folder() + "/../src/lodeway/fells/README.md");
  std::string row;
  int rows = 0;
  while (std::getline(readme, row)) {
    std::vector<std::string> cells;
    std::istringstream in(row);
    for (std::string cell; std::getline(in, cell, '|');) cells.push_back(cell);
    if (cells.size() < 5 || cells[3].find_first_of("0123456789") == std::string::npos) continue;
    const auto name = cells[1].substr(1, cells[1].size() - 2);
    double east = 0, north = 0;
    std::istringstream(cells[3]) >> east >> north;
    const auto found = std::ranges::find_if(fells().map.points,
                                            [&](const auto& p) { return p.label.name == name; });
    ASSERT_NE(found, fells().map.points.end()) << name;
    EXPECT_LT(earth::grid_distance_m(found->at, {east, north}), 1) << name;
    EXPECT_NEAR(height(found->at), std::stod(cells[4]), 1) << name;
    ++rows;
  }
  EXPECT_GE(rows, 15);
}

}  // namespace
}  // namespace lodeway::fells
