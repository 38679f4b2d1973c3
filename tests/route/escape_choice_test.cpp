// The order in which routes off a way are chosen from: each rule goes before those below it.
#include "lodeway/route/escape/escape_choice.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/route/escape/escape_judge.hpp"
#include "made_ground.hpp"

namespace lodeway::route {
namespace {

struct Route {
  std::string to;
  double minutes = 30, certainty = 0.8, hazard = 0;
  bool drop = false, snow = false, on_card = false;
  std::size_t legs = 2;
  double rise_m = 0;
};

EscapeCandidate candidate(const Route& r) {
  EscapeCandidate out;
  out.route.to = r.to;
  out.route.minutes = r.minutes;
  out.route.certainty = r.certainty;
  out.route.hazard_probability = r.hazard;
  out.route.snow_slope = r.snow;
  out.route.legs.resize(r.legs);
  out.to_a_drop = r.drop;
  out.on_the_card = r.on_card;
  out.rise_m = r.rise_m;
  return out;
}

constexpr double most = 0.05;
/// The same whichever comes first.
std::string taken(std::vector<Route> routes) {
  std::vector<EscapeCandidate> all, other;
  for (const auto& r : routes) all.push_back(candidate(r));
  other.assign(all.rbegin(), all.rend());
  auto out = chosen_of(all, most).to;
  EXPECT_EQ(out, chosen_of(other, most).to);
  return out;
}

TEST(EscapeChoice, HarmGoesBeforeAllElse) {
  EXPECT_EQ(taken({{.to = "near", .minutes = 10, .certainty = 0.99, .hazard = 0.06},
                   {.to = "far", .minutes = 200, .certainty = 0.2, .drop = true, .legs = 9}}),
            "far");
}

TEST(EscapeChoice, ADropAheadGoesBeforeSnowLengthTimeAndCertainty) {
  EXPECT_EQ(taken({{.to = "drop", .minutes = 10, .certainty = 0.99, .drop = true},
                   {.to = "none", .minutes = 90, .certainty = 0.3, .snow = true, .legs = 6}}),
            "none");
  // Where each leads to one, the rest decides.
  EXPECT_EQ(taken({{.to = "quick", .minutes = 10, .certainty = 0.5, .drop = true},
                   {.to = "surer", .minutes = 14, .certainty = 0.9, .drop = true}}),
            "surer");
  // One that too many leave for ground to keep off is none that could be taken instead.
  EXPECT_EQ(taken({{.to = "drop", .drop = true}, {.to = "harm", .hazard = 0.3}}), "drop");
}

TEST(EscapeChoice, ThenSlopesThatSlideThenLongLists) {
  EXPECT_EQ(taken({{.to = "slides", .minutes = 10, .certainty = 0.99, .snow = true},
                   {.to = "long", .minutes = 60, .legs = 7}}),
            "long");
  EXPECT_EQ(taken({{.to = "long", .minutes = 10, .certainty = 0.99, .legs = 5},
                   {.to = "short", .minutes = 60, .legs = 4}}),
            "short");
  EXPECT_EQ(taken({{.to = "way back", .minutes = 10, .on_card = true, .legs = 9},
                   {.to = "short", .minutes = 60}}),
            "way back");
}

TEST(EscapeChoice, ThenTheSurestWithinOneAndAHalfTimesTheQuickest) {
  EXPECT_EQ(taken({{.to = "quick", .minutes = 20, .certainty = 0.7},
                   {.to = "sure", .minutes = 30, .certainty = 0.8},
                   {.to = "surest", .minutes = 30.1, .certainty = 0.99}}),
            "sure");
}

TEST(EscapeChoice, OverHigherGroundOnlyWhereThatIsMuchSurer) {
  EXPECT_EQ(taken({{.to = "over the top", .minutes = 40, .certainty = 0.71, .rise_m = 50},
                   {.to = "down", .minutes = 50, .certainty = 0.63, .rise_m = 30}}),
            "down");
  EXPECT_EQ(taken({{.to = "over the top", .minutes = 40, .certainty = 0.80, .rise_m = 50},
                   {.to = "down", .minutes = 50, .certainty = 0.63}}),
            "over the top");
  // Time goes before it, and where all rise the surest is taken.
  EXPECT_EQ(taken({{.to = "over a rise", .minutes = 20, .certainty = 0.6, .rise_m = 50},
                   {.to = "down", .minutes = 31, .certainty = 0.9}}),
            "over a rise");
  EXPECT_EQ(taken({{.to = "a", .certainty = 0.6, .rise_m = 40},
                   {.to = "b", .certainty = 0.7, .rise_m = 90}}),
            "b");
}

TEST(EscapeChoice, WhereAllHarmTheLeastDoes) {
  EXPECT_EQ(taken({{.to = "a", .minutes = 10, .hazard = 0.3},
                   {.to = "b", .minutes = 90, .certainty = 0.1, .hazard = 0.2, .drop = true},
                   {.to = "c", .minutes = 10, .hazard = 0.1, .snow = true}}),
            "b");
}

TEST(EscapeChoice, WhatPassesAllRulesBoundsTheTimeOfOthers) {
  EXPECT_TRUE(passes_all_rules(candidate({.to = "a"}), most));
  EXPECT_FALSE(passes_all_rules(candidate({.to = "a", .hazard = 0.06}), most));
  EXPECT_FALSE(passes_all_rules(candidate({.to = "a", .drop = true}), most));
  EXPECT_FALSE(passes_all_rules(candidate({.to = "a", .snow = true}), most));
  EXPECT_FALSE(passes_all_rules(candidate({.to = "a", .legs = 5}), most));
  EXPECT_TRUE(passes_all_rules(candidate({.to = "a", .on_card = true, .legs = 5}), most));
}

// A climb of 40 m by hand; and over ground without heights nobody knows that a route is level.
TEST(EscapeChoice, HeightsThatAreNotKnownAreNotLevel) {
  auto g = made::ground();
  walking::Leg leg;
  leg.course.line = {made::at(505, 505), made::at(905, 505)};
  EXPECT_NEAR(rise_m(g.elevation, {leg}), 0, 1e-6);
  const auto set = [&](int col, float height) { g.elevation[149, col] = height; };
  for (int col = 60; col < 80; ++col) set(col, 240);
  EXPECT_NEAR(rise_m(g.elevation, {leg}), 40, 1e-3);
  for (int col = 60; col < 80; ++col) set(col, std::nanf(""));
  EXPECT_EQ(rise_m(g.elevation, {leg}), std::numeric_limits<double>::infinity());
}

}  // namespace
}  // namespace lodeway::route
