// Tracks from elsewhere through the program: another grid zone, over its edge and the date line, at
// sea, without heights, the same walk under another name.
#include <algorithm>
#include <cmath>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "learn/made_tracks.hpp"
#include "support/support.hpp"

namespace lodeway {
namespace {
using learn::made_track;
using learn::MadeTrack;
using nlohmann::json;
using support::run_lodeway;
using support::TemporaryFolder;

/// 499 steps of 15 s: 15 (1.1 t + waves), summed.
double walked_km() {
  double metres = 0;
  for (int i = 0; i < 499; ++i) {
    const double t = 15.0 * i;
    metres += 15 * (1.1 + 0.25 * std::sin(t / 130) + 0.1 * std::sin(t / 37));
  }
  return metres / 1000;
}

json track_of(const TemporaryFolder& f, const std::string& name, const MadeTrack& how) {
  const auto o =
      run_lodeway({"learn", f / "p.toml", "--track", f.write(name, made_track(how)), "--json"});
  EXPECT_TRUE(o.status == 0 || o.status == 2) << o.err;
  return json::parse(o.out)["tracks"][0];
}

// A walk is a walk wherever it was: its metres are those of the globe, not of a grid. Pieces are of
// 500 m, so that up to one is not learnt.
TEST(StrangeTracks, AWalkOverAZonesEdgeOrTheDateLineIsAsLongAsItIs) {
  const TemporaryFolder f;
  for (const auto& [name, how] :
       {std::pair{"edge of two zones", MadeTrack{.lat = 47, .lon = 11.97, .eastward = true}},
        {"date line", MadeTrack{.lat = -41, .lon = 179.97, .eastward = true}},
        {"far north", MadeTrack{.lat = 78.2, .lon = 15.6}},
        {"equator", MadeTrack{.lat = -0.02, .lon = 37.3}}}) {
    const auto t = track_of(f, "walk.gpx", how);
    EXPECT_EQ(t["used"], "whole") << name << t.dump();
    // The degree of the track's maker is 111.2 km; the globe's differs by up to 6 in 1000.
    EXPECT_NEAR(t["learned_km"].get<double>(), walked_km(), 0.55) << name;
    EXPECT_NEAR(t["median_kmh"].get<double>(), 3.96, 0.25) << name;
  }
}

TEST(StrangeTracks, OnTheSeaOrWithoutHeightsIsRefused) {
  const TemporaryFolder f;
  auto text = made_track(MadeTrack{.lat = 58.4, .lon = 3.1, .heights = false});
  const auto t = track_of(f, "none.gpx", {.lat = 58.4, .lon = 3.1, .heights = false});
  EXPECT_EQ(t["used"], "refused");
  EXPECT_EQ(t["reasons"], json({"no_heights"}));
  // A boat at walking pace: every height is 0.
  for (std::size_t at = 0; (at = text.find("\"><time>", at)) != std::string::npos; at += 20)
    text.insert(at + 2, "<ele>0.0</ele>");
  const auto boat = f.write("boat.gpx", text);
  const auto o = run_lodeway({"learn", f / "p.toml", "--track", boat, "--json", "--keep"});
  EXPECT_EQ(o.status, 2) << o.out;
  const auto j = json::parse(o.out)["tracks"][0];
  EXPECT_EQ(j["reasons"], json({"no_heights"}));
  EXPECT_NE(j["reason"].get<std::string>().find("every height is 0 m: on water"),
            std::string::npos);
  EXPECT_EQ(j["learned_km"], 0);
  EXPECT_FALSE(std::ifstream(f / "p.toml").good());
}

// Given twice in one call, and the second time under another name: learnt once.
TEST(StrangeTracks, AWalkTwiceUnderTwoNamesMovesTheFiguresOnce) {
  const TemporaryFolder f;
  const auto text = made_track(MadeTrack{});
  const auto one = f.write("a.gpx", text), other = f.write("b.gpx", text);
  const auto pace = [&](const std::vector<std::string>& files) {
    std::vector<std::string> words{"learn", f / "p.toml", "--json"};
    for (const auto& file : files) words.insert(words.end(), {"--track", file});
    return json::parse(run_lodeway(words).out)["pace"];
  };
  EXPECT_EQ(pace({one, other}), pace({one}));
}

}  // namespace
}  // namespace lodeway
