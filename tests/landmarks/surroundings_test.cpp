// What is told along a leg, of more things than a card has room for.
#include "lodeway/landmarks/surroundings.hpp"

#include <string>

#include <gtest/gtest.h>

#include "landmarks/made_map.hpp"
#include "lodeway/landmarks/words.hpp"

namespace lodeway::landmarks {
namespace {

using made::Kind;

enum class Streams { alike, each_named };

/// A path of 3 km to the north, met by streams at these distances, on level ground.
struct Walk {
  made::Made made;
  explicit Walk(const std::vector<double>& at, Streams streams = Streams::alike) {
    made.heights = terrain::Elevation({-500, 3500, 10, 400, 100}, 100.0F);
    made.line(Kind::path, {{0, 0}, {0, 3000}});
    for (const double north : at) {
      const auto name = "Beck " + std::to_string(static_cast<int>(north));
      made.line(Kind::stream, {{-50, north}, {50, north}},
                streams == Streams::alike ? std::string() : name);
    }
  }
  [[nodiscard]] std::vector<double> met(std::size_t most = 6) const {
    const Surroundings around(made.heights, made.map, made.kinds);
    std::vector<double> out;
    for (const auto& s : around.along({{0, 0}, {0, 3000}}, 0, mapdata::Visibility::clear, most))
      out.push_back(s.at_m);
    return out;
  }
};

// 142 m are 465.9 ft (a foot is 0.3048 m, exact).
TEST(Words, ADangerIsSoFarAsTheTripMeasures) {
  DangerFound edge;
  edge.kind = Kind::cliff;
  edge.name = "Brennow Edge";
  edge.side = mapdata::Side::left;
  edge.distance_m = 142;
  EXPECT_EQ(words(edge, units::Language::english), "Brennow Edge, cliff, 142 m to your left");
  EXPECT_EQ(words(edge, {units::Language::english, {false, true}}),
            "Brennow Edge, cliff, 470 ft to your left");
  EXPECT_EQ(words(edge, {units::Language::german, {false, true}}),
            "Brennow Edge, Felswand, 470 ft links");
}

TEST(Surroundings, AllThatThereIsRoomFor) {
  EXPECT_EQ(Walk({1200, 400, 2000}, Streams::each_named).met(),
            (std::vector<double>{400, 1200, 2000}));
  // under 40 m apart is one thing
  EXPECT_EQ(Walk({400, 430, 2000}).met(), (std::vector<double>{400, 2000}));
}

// Nobody counts streams: of those alike in a row the first and the last are told. A wall between
// two of them ends the row, and so leaves none of three.
TEST(Surroundings, OfThreeAlikeInARowTheFirstAndTheLast) {
  Walk walk({400, 1200, 2000});
  EXPECT_EQ(walk.met(), (std::vector<double>{400, 2000}));
  walk.made.line(Kind::wall, {{-50, 1600}, {50, 1600}});
  EXPECT_EQ(walk.met(), (std::vector<double>{400, 1200, 1600, 2000}));
}

// A wall between streams goes for want of room: then the streams are a row, and the middle one
// makes room. By hand, of five: 2800 first (last 300 m), then the crossings by how far apart.
TEST(Surroundings, WhatRoomLeavesIsNoRowEither) {
  Walk walk({400, 900, 1500, 2100, 2800});
  for (const double north : {650.0, 1200.0, 1800.0}) {
    walk.made.line(Kind::wood_edge, {{-50, north}, {50, north}});
    walk.made.kinds[Kind::wood_edge].ticks = true;
  }
  const Surroundings around(walk.made.heights, walk.made.map, walk.made.kinds);
  for (std::size_t most = 1; most <= 8; ++most) {
    const auto all = around.along({{0, 0}, {0, 3000}}, 0, mapdata::Visibility::clear, most);
    EXPECT_FALSE(all.empty());
    for (std::size_t i = 2; i < all.size(); ++i)
      EXPECT_FALSE(all[i - 2].kind == all[i - 1].kind && all[i - 1].kind == all[i].kind) << most;
  }
}

// A path of 1000 m with a bend to the right at 700 m and nothing else on it; with a stream at 200 m
// the bend is told still, with one at 850 m it is not wanted.
TEST(Surroundings, WhereNothingElseIsMetTheLastBend) {
  made::Made made;
  made.heights = terrain::Elevation({-500, 3500, 10, 400, 100}, 100.0F);
  const std::vector<GridPoint> path{{0, 0}, {0, 700}, {300, 700}};
  made.line(Kind::path, path);
  const auto met = [&] {
    std::vector<std::string> out;
    const Surroundings around(made.heights, made.map, made.kinds);
    for (const auto& s : around.along(path, 0, mapdata::Visibility::clear)) {
      out.push_back(words(s, units::Language::english));
      if (s.meeting == Meeting::bends) {
        EXPECT_NEAR(s.at_m, 700, 1e-9);
      }
    }
    return out;
  };
  EXPECT_EQ(met(), (std::vector<std::string>{"bend, right"}));
  made.line(Kind::stream, {{-50, 200}, {50, 200}});
  EXPECT_EQ(met(), (std::vector<std::string>{"stream crosses", "bend, right"}));
  made.line(Kind::wall, {{150, 650}, {150, 750}});
  EXPECT_EQ(met(), (std::vector<std::string>{"stream crosses", "wall crosses"}));
}

// A path that curves by one radius: chords of 150 m before and after a place turn by 150 / radius. By
// hand 17.2 degrees for 500 m, told at the first place past the middle of 800 m; 12.3 for 700 m, not.
TEST(Surroundings, ASlowBendWhereThereIsNoSharpOne) {
  for (const double radius : {500.0, 700.0}) {
    made::Made made;
    made.heights = terrain::Elevation({-500, 3500, 10, 400, 400}, 100.0F);
    std::vector<GridPoint> path;
    for (int k = 0; k <= 80; ++k) {
      const double a = 10 * k / radius;
      path.push_back({radius * (1 - std::cos(a)), radius * std::sin(a)});
    }
    made.line(Kind::path, path);
    const auto met = Surroundings(made.heights, made.map, made.kinds)
                         .along(path, 0, mapdata::Visibility::clear);
    ASSERT_EQ(met.size(), radius < 600 ? 1U : 0U) << radius;
    if (met.empty()) continue;
    EXPECT_EQ(words(met[0], units::Language::english), "bend, right");
    EXPECT_GT(met[0].at_m, 400);
    EXPECT_LT(met[0].at_m, 760);
  }
}

// By hand: 2800 says that the end is near; of the rest 1500 is farthest from 0 and 2800 (1300 m);
// then 700 (700 m from 0); then 1100 (400 m).
TEST(Surroundings, SpreadOverTheLegWithOneBeforeTheEnd) {
  const Walk walk({100, 200, 300, 400, 500, 600, 700, 1100, 1500, 2800},
                  Streams::each_named);  // alike they would be thinned before
  EXPECT_EQ(walk.met(1), (std::vector<double>{2800}));
  EXPECT_EQ(walk.met(2), (std::vector<double>{1500, 2800}));
  EXPECT_EQ(walk.met(3), (std::vector<double>{700, 1500, 2800}));
  EXPECT_EQ(walk.met(4), (std::vector<double>{700, 1100, 1500, 2800}));
  EXPECT_EQ(walk.met(60).size(), 10U);
  EXPECT_TRUE(walk.met(0).empty());
}

TEST(Surroundings, WhatTellsMoreGoesBeforeWhatLiesBetter) {
  Walk walk({1000, 2800});
  walk.made.point(Kind::cairn, {5, 1500});
  walk.made.line(Kind::wall, {{-50, 1200}, {50, 1200}}, "Long Wall");
  // named, crossed: 5 x 1200 m; the cairn in the middle 3 x 1300 m
  EXPECT_EQ(walk.met(2), (std::vector<double>{1200, 2800}));
}

/// What stops a party that goes north on the map's first line and overshoots the place 0, 1000.
std::optional<StopFound> stopped(const made::Made& made) {
  const Surroundings around(made.heights, made.map, made.kinds);
  return around.stop_beyond({0, 1000}, units::GridBearing::degrees(0), 0);
}

// An edge stops a party once and for all: it is never what catches, whatever a table says, and a
// wall behind it is no help.
TEST(Surroundings, ACliffCatchesNobody) {
  made::Made made;
  made.kinds[Kind::cliff].catches = made.kinds[Kind::wall].catches = true;
  made.heights = terrain::Elevation({-500, 3500, 10, 400, 100}, 100.0F);
  made.line(Kind::path, {{0, 0}, {0, 1000}});
  made.line(Kind::wall, {{-100, 1300}, {100, 1300}});
  ASSERT_TRUE(stopped(made));
  made.line(Kind::cliff, {{-100, 1200}, {100, 1200}});
  EXPECT_FALSE(stopped(made));
  auto before = made;
  before.line(Kind::wall, {{-100, 1100}, {100, 1100}});
  ASSERT_TRUE(stopped(before));
  EXPECT_NEAR(stopped(before)->beyond_m, 100, 1e-6);
}

TEST(Surroundings, WhatIsFollowedStopsNobodyWhereItGoesOn) {
  for (const std::string name : {"", "Kell path"}) {
    made::Made made;
    made.kinds[Kind::path].catches = made.kinds[Kind::wall].catches = true;
    made.heights = terrain::Elevation({-500, 3500, 10, 400, 100}, 100.0F);
    made.line(Kind::path, {{0, 0}, {0, 1000}}, name);
    made.line(Kind::path, {{0, 1000}, {300, 1020}}, name);  // it bends
    EXPECT_FALSE(stopped(made)) << name;
    made.line(Kind::wall, {{-100, 1200}, {100, 1200}});
    ASSERT_TRUE(stopped(made)) << name;
    EXPECT_EQ(stopped(made)->kind, Kind::wall);
    EXPECT_NEAR(stopped(made)->beyond_m, 200, 1e-6);
    // it ends on another that goes through
    made.line(Kind::path, {{-300, 1000}, {300, 1000}}, name.empty() ? "" : "Hause path");
    ASSERT_TRUE(stopped(made)) << name;
    EXPECT_EQ(stopped(made)->kind, Kind::path);
  }
}

// Who has come to the beck at the end would take its next bend for too far: it stops nobody. Another does.
TEST(Surroundings, WhatTheEndStandsAtIsNotWhatTellsOfTooFar) {
  made::Made made;
  made.kinds[Kind::stream].catches = made.kinds[Kind::wall].catches = true;
  made.heights = terrain::Elevation({-500, 3500, 10, 400, 100}, 100.0F);
  made.line(Kind::path, {{0, 0}, {0, 1000}});
  made.line(Kind::stream, {{-100, 1090}, {100, 1090}}, "Mornel Beck");
  ASSERT_TRUE(stopped(made));
  EXPECT_NEAR(stopped(made)->beyond_m, 90, 1e-6);
  made.line(Kind::stream, {{5, 1000}, {200, 1010}}, "Mornel Beck");
  EXPECT_FALSE(stopped(made));
  made.line(Kind::wall, {{-100, 1200}, {100, 1200}});
  ASSERT_TRUE(stopped(made));
  EXPECT_NEAR(stopped(made)->beyond_m, 200, 1e-6);
}

// Where streets meet in a settlement the place has their name, not that of the nearest house.
TEST(Surroundings, AStreetCornerIsNoBuilding) {
  made::Made made;
  made.heights = terrain::Elevation({-500, 3500, 10, 400, 100}, 100.0F);
  made.line(Kind::road, {{0, 0}, {0, 1000}});
  made.line(Kind::track, {{0, 500}, {400, 500}});
  made.point(Kind::building, {15, 510});
  const auto at = [&] {
    return words(Surroundings(made.heights, made.map, made.kinds).place({0, 500}),
                 units::Language::english);
  };
  EXPECT_EQ(at(), "building");
  for (const double north : {540.0, 570.0, 600.0}) made.point(Kind::building, {15, north});
  EXPECT_EQ(at(), "road at track");
}

}  // namespace
}  // namespace lodeway::landmarks
