// How far the count runs on a line, by hand.
#include "lodeway/route/graph/since_tick.hpp"

#include <gtest/gtest.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;

/// A path of 1600 m to the east that bends at 900 m and 1400 m; a wall across it at 600 m.
walking::Ground bent_path() {
  auto g = made::ground();
  made::line(g, Kind::path, {at(200, 1000), at(1100, 1000), at(1450, 1350), at(1450, 1560)});
  made::line(g, Kind::wall, {at(800, 900), at(800, 1100)});
  return g;
}

TEST(SinceTick, RunsOnPastBends) {
  const auto g = bent_path();
  const Lines lines(g);
  const SinceTick since(lines);
  const landmarks::Surroundings around(g.elevation, g.map, g.kinds);
  const auto clear = mapdata::Visibility::clear;
  int ends = 0, backs = 0;
  for (std::uint32_t run = 0; run < 2 * lines.pieces.size(); ++run) {
    if (lines.label(run).kind != Kind::path) continue;
    const auto end = lines.spots[lines.end(run)].at;
    const double length = lines.pieces[run / 2].length_m;
    if (end == at(1450, 1560)) {  // 300 m to the bend at 1100, about 495 m on to the next, 210 m
      EXPECT_NEAR(since.at_end(around, run, clear), 300 + 350 * std::sqrt(2.0) + 210, 0.1);
      EXPECT_EQ(since.at_end(around, run, clear), since.at(around, run, length, clear));
      EXPECT_NEAR(since.at(around, run, length - 50, clear), since.at_end(around, run, clear) - 50,
                  0.1);
      ++ends;
    }
    if (end == at(200, 1000)) {
      EXPECT_NEAR(since.at_end(around, run, clear), 600, 0.1);
      ++backs;
    }
  }
  EXPECT_EQ(ends, 1);
  EXPECT_EQ(backs, 1);
}

// The path's end is 1005 m past the wall, and nothing marks it. With a saddle 150 m before it, that
// the card ticks off, a party keeps 90 of 100 there; no limit is said to fail.
TEST(SinceTick, TheSearchCountsAsTheCardDoes) {
  auto g = bent_path();
  walking::Request r;
  r.points = {{"start", at(200, 1000)}, {"end", at(1450, 1560)}};
  r.party.visibility = mapdata::Visibility::cloud;
  numeric::Serial serial;
  const auto found = [&] { return WayFinder(g).find(r, {.walkers = 0}, serial); };
  const auto without = found();
  ASSERT_TRUE(without);
  EXPECT_FALSE(without->remarks.empty());
  g.map.points.push_back({{Kind::saddle, "Kell Gap"}, at(1450, 1410), 0});
  const auto with = found();
  ASSERT_TRUE(with);
  for (const auto& leg : with->ways.front().way.legs) EXPECT_GE(leg.judged.certainty, 0.895);
  for (const auto& remark : with->remarks)
    EXPECT_EQ(remark.find("90 in 100"), std::string::npos) << remark;
}

}  // namespace
}  // namespace lodeway::route
