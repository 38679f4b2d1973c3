// What is told of a leg beside its figures, on ground made by hand.
#include "lodeway/trip/leg_notes.hpp"

#include <gtest/gtest.h>

#include "lodeway/trip/turn_words.hpp"
#include "lodeway/walking/cover.hpp"

namespace lodeway::trip {
namespace {

using earth::GridPoint;
using mapdata::Kind;
using walking::LegKind;
using About = LegNote::About;

struct Legs : testing::Test {
  Legs() {
    ground.grid = *earth::MapGrid::from_text("EPSG:32629");
    ground.elevation = terrain::Elevation(terrain::Frame{480000, 6052000, 50, 60, 60}, 200.0F);
    for (int k = 0; k < mapdata::kind_count; ++k) ground.kinds[static_cast<Kind>(k)].ticks = true;
  }
  reckoning::JudgedLeg& leg(LegKind kind, GridPoint a, GridPoint b, const std::string& to) {
    auto& l = way.legs.emplace_back();
    l.course.kind = kind;
    l.course.line = {a, b};
    l.course.to = to;
    l.figures.length_m = l.judged.length_m = earth::grid_distance_m(a, b);
    l.judged.minutes = 10;
    return l;
  }
  [[nodiscard]] std::vector<LegNote> of(std::size_t i) const {
    return notes_of(way, ground, units::Language::english)[i];
  }
  [[nodiscard]] std::string words(std::size_t i) const {
    Trip trip;
    const auto all = of(i);
    return all.empty() ? "" : note_words(all.front(), trip, {});
  }
  walking::Ground ground;
  reckoning::JudgedWay way;
};

TEST_F(Legs, TheAttackPointIsNamedAsSuch) {
  leg(LegKind::along, {481000, 6050000}, {481000, 6050500}, "Hause path junction");
  leg(LegKind::bearing, {481000, 6050500}, {481200, 6050500}, "Low Fold");
  EXPECT_EQ(words(0), "Its end is the attack point for Low Fold.");
  EXPECT_TRUE(of(1).empty());
  way.legs[1].figures.length_m = 251;  // too far for that
  EXPECT_TRUE(of(0).empty());
  way.legs[1].figures.length_m = 200;
  way.legs[0].judged.fix_at_end = false;  // nobody knows that they stand there
  EXPECT_TRUE(of(0).empty());
  way.legs[0].judged.fix_at_end = true;
  way.legs[0].course.kind = LegKind::bearing;
  EXPECT_TRUE(of(0).empty());
}

TEST_F(Legs, WhyItTurns) {
  auto& in = leg(LegKind::bearing, {481000, 6050000}, {481000, 6050500}, "turn");
  in.judged.fix_at_end = false;
  leg(LegKind::bearing, {481000, 6050500}, {481900, 6050500}, "Low Fold");
  EXPECT_TRUE(of(0).empty());
  using What = walking::TurnReason::What;
  auto& why = way.legs[0].turns_for.emplace();
  why = {What::goes_round, walking::Bar::cliff, "Brennow Edge", 0};
  EXPECT_EQ(words(0), "Turn here; straight on lies: a cliff (Brennow Edge).");
  why = {What::longest_leg, {}, "", 0};
  EXPECT_EQ(words(0), "Stop here and check count and time, for no leg on a bearing is longer than 1500 m.");
  why = {What::quicker, {}, "", 12.4};
  EXPECT_EQ(words(0), "Turn here, for straight on takes 12 min more.");
  way.legs[0].judged.fix_at_end = true;  // a place to see is reason enough
  EXPECT_TRUE(of(0).empty());
}

TEST_F(Legs, LongOnesAreSaidToBeLong) {
  auto& l = leg(LegKind::along, {481000, 6050000}, {481000, 6050500}, "ford");
  l.judged.minutes = 45;
  EXPECT_TRUE(of(0).empty());
  way.legs[0].judged.minutes = 52;
  EXPECT_EQ(words(0), "Long leg, 52 min: halt every 26 min, compare count and time.");
  way.legs[0].judged.minutes = 63;  // three parts, none over half an hour
  EXPECT_EQ(words(0), "Long leg, 63 min: halt every 21 min, compare count and time.");
}

// A fold with another 60 m north of it and two more 90 m off; a cairn beside it is none. The error is
// so small that only what is within 50 m counts, then 30 m of sigma: 73 m; then 45 m: 110 m.
TEST_F(Legs, WhatTheEndCouldBeTakenFor) {
  const GridPoint end{481000, 6050500};
  for (const auto& d : {GridPoint{0, 0}, {0, 60}, {90, 0}, {-90, 0}, {0, 400}})
    ground.map.points.push_back({{Kind::sheepfold, ""}, end + d, 0});
  ground.map.points.push_back({{Kind::cairn, ""}, end + GridPoint{30, 0}, 0});
  auto& l = leg(LegKind::bearing, {481000, 6050000}, end, "sheepfold");
  l.judged.at_end = {100, 0, 100};
  EXPECT_TRUE(of(0).empty());
  way.legs[0].judged.at_end = {900, 0, 100};
  EXPECT_EQ(words(0), "sheepfold, 60 m at 000\u00b0 from the end, looks like it.");
  way.legs[0].judged.at_end = {2025, 0, 100};
  EXPECT_EQ(words(0), "sheepfold, 60 m at 000\u00b0 from the end, looks like it; 2 more about.");
  EXPECT_EQ(note_name(of(0).front().about), "taken_for");
  // Under a heading that says so already it is not said again.
  EXPECT_EQ(like_words(of(0).front(), {}, {}),
            "sheepfold, 60 m at 000\u00b0 from the end; 2 more about.");
  // What the leg says itself is not said a second time.
  way.legs[0].judged.confusable = "a sheepfold 60 m before the end";
  EXPECT_TRUE(of(0).empty());
}

// The house that was asked for stands among three others 100 m off and one 160 m off: however sure the
// party is of its place, it has to be told which; a house with two others about it stands alone.
TEST_F(Legs, AHouseAmongOthersCouldBeAnyOfThem) {
  const GridPoint end{481000, 6050500};
  for (const auto& d : {GridPoint{0, 0}, {0, 100}, {100, 0}, {0, 160}})
    ground.map.points.push_back({{Kind::building, ""}, end + d, 0});
  auto& l = leg(LegKind::along, {481000, 6050000}, end, "To");
  l.judged.at_end = {25, 0, 25};
  EXPECT_TRUE(of(0).empty());
  ground.map.points.push_back({{Kind::building, ""}, end + GridPoint{-99, 0}, 0});
  EXPECT_EQ(words(0), "building, 99 m at 270\u00b0 from the end, looks like it; 2 more about.");
}

}  // namespace
}  // namespace lodeway::trip
