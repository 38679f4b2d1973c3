// Out and back: home by the legs that were gone out, unless another way is better by enough. By hand.
#include "lodeway/route/choose/home_same_way.hpp"

#include <gtest/gtest.h>

#include "lodeway/route/choose/judge_ways.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;

std::vector<walking::Waypoint> round_trip() {
  return {{"Ruin", at(400, 1000)}, {"Fold", at(1600, 1000)}, {"Ruin again", at(400, 1000)}};
}

/// Two paths round a tarn: 1342 m in the north, 1351 m in the south.
walking::Ground tarn() {
  auto g = made::ground();
  for (int k = 0; k < mapdata::kind_count; ++k) g.kinds[static_cast<Kind>(k)].seen_from_m.fill(8);
  g.kinds[Kind::ruin].ticks = true;
  made::box(g, Kind::lake, at(600, 800), at(1400, 1200));
  made::line(g, Kind::path, {at(400, 1000), at(1000, 1300), at(1600, 1000)}, "North path");
  made::line(g, Kind::path, {at(400, 1000), at(1000, 690), at(1600, 1000)}, "South path");
  g.map.points.push_back({{Kind::ruin, "Ruin"}, at(400, 1000), 0});
  g.map.points.push_back({{Kind::sheepfold, "Fold"}, at(1600, 1000), 0});
  return g;
}

TEST(HomeTheSameWay, WhichStretchesLeadBack) {
  EXPECT_EQ(there_and_back(round_trip()).size(), 1U);
  auto three = round_trip();
  three.insert(three.begin() + 1, {"Top", at(1000, 1500)});
  EXPECT_TRUE(there_and_back(three).empty());  // round: no stretch of it is gone twice
  auto set = round_trip();
  set.back().stretch = walking::Stretch::bearing;  // the leader wants it so
  EXPECT_TRUE(there_and_back(set).empty());
}

/// A way out by one path and home by another, each one leg.
NamedWay round_the_tarn(const Cutting& c, const reckoning::Judge& judge, std::uint32_t out,
                        std::uint32_t home) {
  auto legs = legs_of(c, {{out, c.ground.map.lines[out].points}}, "Ruin", "Fold");
  auto back = c.ground.map.lines[home].points;
  std::ranges::reverse(back);
  for (auto& leg : legs_of(c, {{home, back}}, "Fold", "Ruin again")) legs.push_back(std::move(leg));
  return judged(reckoning::Teller(judge, c.language), {"", std::move(legs)});
}

/// What home_the_same_way makes of a way out south and home north; `asked` counts how often it asks
/// whether to go on, and it is told to stop at question `stop_at`.
Result<std::vector<std::string>> followed(double farther_south_m, int stop_at = 1000,
                                          int* asked = nullptr) {
  auto g = tarn();
  g.map.lines[1].points[1] = at(1000, 690 - farther_south_m);
  walking::Request r;
  r.points = round_trip();
  r.party.time_band = 0.15;
  const Prepared prepared(g, r);
  const landmarks::Surroundings around(g.elevation, g.map, g.kinds);
  const Cutting c{g, prepared, around, r, units::Language::english};
  const reckoning::Judge judge(g, r.party, reckoning::forbidden_of(prepared.cover), 0.5);
  numeric::Serial serial;
  std::vector<NamedWay> ways{round_the_tarn(c, judge, 1, 0)};  // out south, home north
  int questions = 0;
  const auto done = home_the_same_way(c, judge, {}, {}, r.points, ways, serial,
                                      [&] { return ++questions < stop_at; });
  if (asked != nullptr) *asked = questions;
  EXPECT_EQ(ways.size(), 1U);
  if (!done) {
    EXPECT_EQ(ways[0].way.legs[1].course.followed.name, "North path");  // as it was
    return std::unexpected(done.error());
  }
  std::vector<std::string> out;
  for (const auto& leg : ways[0].way.legs) out.push_back(leg.course.followed.name);
  return out;
}

TEST(HomeTheSameWay, StopsWhenItIsTold) {
  int asked = 0;
  ASSERT_TRUE(followed(0, 1000, &asked));
  ASSERT_GE(asked, 2);  // before the ways are turned, and before they are judged
  for (int at = 1; at <= asked; ++at) {
    const auto stopped = followed(0, at);
    ASSERT_FALSE(stopped) << at;
    EXPECT_EQ(stopped.error().code, FaultCode::cancelled);
  }
}

// By hand: the north path is 9 m shorter, 8 seconds: home the way they came. A south path that goes
// 340 m farther south is 427 m longer, 6 minutes: then home by the north.
TEST(HomeTheSameWay, UnlessAnotherIsBetterByFiveMinutes) {
  EXPECT_EQ(followed(0).value(), (std::vector<std::string>{"South path", "South path"}));
  EXPECT_EQ(followed(340).value(), (std::vector<std::string>{"South path", "North path"}));
}

// Half a party in 100 fewer onto ground to keep off is a difference, but no reason to leave the limits.
TEST(HomeTheSameWay, AWayThatKeepsTheLimitsRather) {
  const ChoiceRules rules;  // 5 in 100
  Candidate same{}, other{};
  same.keep_off = 0.048;
  other.keep_off = 0.052;
  same.expected_min = other.expected_min = 100;
  EXPECT_TRUE(better_home(same, other, rules));
  EXPECT_FALSE(better_home(other, same, rules));
  same.keep_off = 0.05;
  other.keep_off = 0.047;  // both within, 0.3 in 100 apart: the same way
  EXPECT_FALSE(better_home(other, same, rules));
  same.late_min = 1;
  EXPECT_TRUE(better_home(other, same, rules));
  other.expected_min = 90;
  other.late_min = 2;
  same.late_min = 0;
  EXPECT_FALSE(better_home(other, same, rules));
}

TEST(HomeTheSameWay, AskedOfTheFinderToo) {
  const auto g = tarn();
  walking::Request r;
  r.points = round_trip();
  r.party.visibility = mapdata::Visibility::cloud;
  numeric::Serial serial;
  const auto found = WayFinder(g).find(r, {.min_certainty = 0.5, .walkers = 0}, serial);
  ASSERT_TRUE(found) << found.error().what;
  for (const auto& way : found->ways) {
    const auto& legs = way.way.legs;
    ASSERT_EQ(legs.size() % 2, 0U);
    for (std::size_t i = 0; i < legs.size() / 2; ++i) {
      const auto& back = legs[legs.size() - 1 - i];
      EXPECT_EQ(legs[i].course.line.front(), back.course.line.back());
      EXPECT_EQ(legs[i].course.followed.name, back.course.followed.name);
    }
  }
}

}  // namespace
}  // namespace lodeway::route
