// Areas that the ground's rim cuts: random polygons, random boxes, judged point by point.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "lodeway/io/vector/features.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;
using Scratch = support::TemporaryFolder;
using earth::GridPoint;

constexpr double east_0 = 500'000, north_0 = 5'200'000;

/// A ring that never crosses itself: its points go round a middle at growing angles. Coordinates in
/// whole `step` metres, so that points and sides often fall on the box's sides and corners.
std::vector<GridPoint> star(std::mt19937& random, GridPoint middle, double reach, double step) {
  std::uniform_real_distribution<double> unit(0, 1);
  const int count = 4 + static_cast<int>(unit(random) * 12);
  std::vector<GridPoint> out;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * (i + 0.8 * unit(random)) / count;
    const double r = reach * (0.15 + 0.85 * unit(random));
    const auto whole = [&](double v) { return step > 0 ? step * std::round(v / step) : v; };
    out.push_back(
        {whole(middle.east_m + r * std::sin(angle)), whole(middle.north_m + r * std::cos(angle))});
  }
  return out;
}

bool within(const std::vector<GridPoint>& ring, GridPoint p) {  // W. R. Franklin's crossing test
  bool in = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const GridPoint a = ring[i], b = ring[j];
    if ((a.north_m > p.north_m) != (b.north_m > p.north_m) &&
        p.east_m <
            (b.east_m - a.east_m) * (p.north_m - a.north_m) / (b.north_m - a.north_m) + a.east_m) {
      in = !in;
    }
  }
  return in;
}

std::string text_of(const std::vector<GridPoint>& ring) {
  std::string out = "[";
  for (std::size_t i = 0; i <= ring.size(); ++i) {
    const GridPoint p = ring[i % ring.size()];
    out += fmt::format("{}[{},{}]", i > 0 ? "," : "", p.east_m, p.north_m);
  }
  return out + "]";
}

std::string file_of(const std::string& features) {
  return R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":)"
         R"("urn:ogc:def:crs:EPSG::32632"}},"features":[)" +
         features + "]}";
}

std::string feature_of(const std::string& rings) {
  return R"({"type":"Feature","properties":{"natural":"water"},"geometry":)"
         R"({"type":"Polygon","coordinates":[)" +
         rings + "]}}";
}

io::FeatureRequest request_of(terrain::Frame frame) {
  return {earth::MapGrid::from_text("EPSG:32632").value(), frame, &io::built_in_rules(), {}};
}

/// The rim's commonest gift: the box about a polygon meets the ground, the polygon does not.
TEST(Clip, a_polygon_that_only_its_box_brings_near_is_nothing) {
  const Scratch scratch;
  const std::vector<GridPoint> around{
      {east_0 - 500, north_0 + 900},  {east_0 - 500, north_0 + 1500},
      {east_0 + 900, north_0 + 1500}, {east_0 + 900, north_0 + 1400},
      {east_0 - 400, north_0 + 1400}, {east_0 - 400, north_0 + 900}};
  const auto path = scratch.write("hook.geojson", file_of(feature_of(text_of(around))));
  const auto read = io::read_features(path, request_of({east_0, north_0 + 1000, 10, 100, 100}));
  ASSERT_TRUE(read) << read.error().what;
  EXPECT_TRUE(read->map.areas.empty());
  EXPECT_TRUE(read->remarks.empty()) << read->remarks.front();
}

TEST(Clip, random_polygons_and_boxes_hold_the_same_points_before_and_after) {
  const Scratch scratch;
  std::mt19937 random(20260926);
  std::uniform_real_distribution<double> unit(0, 1);
  int cut = 0, gone = 0, points = 0;
  for (int round = 0; round < 400; ++round) {
    const double step = round % 3 == 0 ? 0 : round % 3 == 1 ? 50 : 250;
    const int cols = 5 + static_cast<int>(unit(random) * 40);
    const int rows = 5 + static_cast<int>(unit(random) * 40);
    const terrain::Frame frame{east_0, north_0 + 50.0 * rows, 50, rows, cols};
    std::vector<std::vector<std::vector<GridPoint>>> given;
    std::string features;
    for (int k = 0; k < 6; ++k) {
      const GridPoint middle{east_0 + (unit(random) * 1.6 - 0.3) * 50 * cols,
                             north_0 + (unit(random) * 1.6 - 0.3) * 50 * rows};
      const double reach = 200 + 2500 * unit(random) * unit(random);
      std::vector<std::vector<GridPoint>> rings{star(random, middle, reach, step)};
      if (k % 2 == 0) rings.push_back(star(random, middle, 0.02 * reach, 0));
      given.push_back(rings);
      std::string text = text_of(rings[0]);
      if (rings.size() > 1) text += "," + text_of(rings[1]);
      features += (k > 0 ? "," : "") + feature_of(text);
    }
    // Rounded rings may touch or cross themselves: a file is read whole or refused in one line.
    const auto path = scratch.write("random.geojson", file_of(features));
    const auto read = io::read_features(path, request_of(frame));
    if (!read) {
      ASSERT_GT(step, 0) << read.error().what;
      EXPECT_NE(read.error().what.find("expected a ring that does not cross itself"),
                std::string::npos)
          << read.error().what;
      continue;
    }
    for (const auto& area : read->map.areas) {
      ASSERT_GE(area.outer.size(), 3U);
      for (const GridPoint p : area.outer) {
        EXPECT_TRUE(p.east_m > frame.west_m - 1e-6 && p.east_m < frame.east_m() + 1e-6 &&
                    p.north_m > frame.south_m() - 1e-6 && p.north_m < frame.north_m + 1e-6);
      }
    }
    if (step > 0) continue;  // judged where every ring is plain
    cut += static_cast<int>(read->map.areas.size());
    gone += 6 - static_cast<int>(std::min<std::size_t>(6, read->map.areas.size()));
    for (int i = 0; i < 200; ++i, ++points) {
      const GridPoint p{frame.west_m + unit(random) * 50 * cols,
                        frame.south_m() + unit(random) * 50 * rows};
      int before = 0, after = 0;
      for (const auto& rings : given)
        before += within(rings[0], p) && (rings.size() < 2 || !within(rings[1], p));
      for (const auto& area : read->map.areas) {
        bool in = within(area.outer, p);
        for (const auto& hole : area.holes) in = in && !within(hole, p);
        after += in;
      }
      ASSERT_EQ(before, after) << fmt::format("round {} at {} {}", round, p.east_m, p.north_m);
    }
  }
  std::printf("%d areas kept, %d wholly outside, %d points\n", cut, gone, points);
  EXPECT_GT(cut, 200);
  EXPECT_GT(gone, 50);
}

}  // namespace
