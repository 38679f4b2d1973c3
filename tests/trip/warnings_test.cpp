// What a leader is told of ways that are compared, by hand.
#include "lodeway/trip/warnings.hpp"

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

/// A way of legs with these certainties and chances to step on barred ground.
Plan plan_of(const std::vector<std::pair<double, double>>& legs) {
  Plan plan;
  for (const auto& [certainty, hazard] : legs) {
    auto& judged = plan.way.legs.emplace_back().judged;
    judged.certainty = certainty;
    judged.hazard_probability = hazard;
  }
  return plan;
}

// What was worked out from heights is no map's word for it.
TEST(Warnings, WhatTheMapDoesNotKnowIsSaid) {
  mapdata::MapData map;
  EXPECT_EQ(map_lacks_words(map, Language::english),
            "This map knows no cliffs, lakes, rivers here: there may be some all the same.");
  map.lines.push_back({{mapdata::Kind::cliff, "Orrin Scar"}, {{0, 0}, {9, 0}}});
  map.lines.push_back({{mapdata::Kind::river, ""}, {{0, 0}, {9, 0}}});
  map.areas.push_back({{mapdata::Kind::lake, ""}, {{0, 0}, {9, 0}, {0, 9}}, {}});
  EXPECT_EQ(map_lacks_words(map, Language::english), "");
  map.areas.back().label.origin = mapdata::Origin::from_relief;
  map.lines.pop_back();
  EXPECT_EQ(map_lacks_words(map, Language::german),
            "Diese Karte kennt hier keine Seen, Flüsse: es kann sie trotzdem geben.");
}

TEST(Shortfalls, EveryLegIsNamedWithItsFigure) {
  // 0.8999 is under 0.9 though it is nearer to 90 of 100 than to 89: the card cautions of it.
  auto plan = plan_of({{0.99, 0}, {0.8999, 0.05}, {0.9, 0.0512}, {0.705, 0.755}});
  const auto english = shortfalls(plan, 0.05);
  ASSERT_EQ(english.size(), 2U);
  EXPECT_EQ(english[0],
            "fewer than your limit of 90 in 100 keep these: leg 2 (89), leg 4 (70)");
  EXPECT_EQ(english[1], "more than 5 in 100 stray onto ground to keep off: leg 3 (6), leg 4 (76)");
  plan.trip.language = Language::german;
  const auto german = shortfalls(plan, 0.05);
  EXPECT_EQ(german[0],
            "weniger als eure Grenze von 90 von 100 halten: Abschnitt 2 (89), Abschnitt 4 (70)");
  EXPECT_EQ(german[1],
            "mehr als 5 von 100 geraten auf zu meidendes Gelände: Abschnitt 3 (6), Abschnitt 4 "
            "(76)");
}

// A slow day that ends at 19:47, last light at 17:17: 2 h 30 too late.
TEST(Warnings, WhyThereIsNoTurnRoundTime) {
  auto plan = plan_of({{0.99, 0}, {0.99, 0}});
  const auto says = [&](const char* why) {
    return no_turn_words(plan).find(why) != std::string::npos;
  };
  EXPECT_TRUE(says("no leg ends at a place"));
  plan.schedule.never_home = 0.2;
  EXPECT_TRUE(says("do not come home by themselves"));
  plan.schedule.turn_before_start = true;
  EXPECT_TRUE(says("before the start"));
  plan.schedule.turn_round = Clock{12 * 60};
  EXPECT_EQ(no_turn_words(plan), "");
}

TEST(Shortfalls, ADayTooShortIsSaidWithTheStartThatWouldDo) {
  auto plan = plan_of({{0.99, 0}});
  plan.daylight.dawn = Clock{6 * 60};
  plan.daylight.dusk = Clock{17 * 60 + 17};
  plan.schedule.start = plan.trip.start = Clock{9 * 60};
  plan.schedule.end_slow = Clock{19 * 60 + 47};
  plan.schedule.latest_start = Clock{6 * 60 + 30};
  EXPECT_EQ(shortfalls(plan, 0.05),
            std::vector<std::string>{
                "ends 2 h 30 after last light on a slow day; start by 06:30 to end before it"});
  plan.schedule.end_slow = Clock{21 * 60 + 17};
  plan.schedule.latest_start = {};  // 05:00 is before first light
  EXPECT_EQ(shortfalls(plan, 0.05),
            std::vector<std::string>{
                "ends 4 h 00 after last light on a slow day, even if you start at first light"});
  plan.trip.language = Language::german;
  EXPECT_EQ(shortfalls(plan, 0.05),
            std::vector<std::string>{"endet an einem langsamen Tag 4 h 00 nach dem letzten Licht, "
                                     "auch bei Aufbruch beim ersten Licht"});
  plan.schedule.end_slow = Clock{17 * 60 + 17};
  plan.schedule.latest_start = Clock{9 * 60};
  EXPECT_TRUE(shortfalls(plan, 0.05).empty());
}

TEST(Shortfalls, NothingWhereAllIsKept) {
  const auto plan = plan_of({{0.9, 0.05}, {1, 0}});
  EXPECT_TRUE(shortfalls(plan, 0.05).empty());
}

// Over when home would have called for help, by the zone's own clock: 18:00 in Dublin in July is
// 17:00 UTC.
TEST(Warnings, ADayThatIsPastIsSaid) {
  using std::chrono::hours, std::chrono::seconds;
  Plan plan;
  plan.trip.date = std::chrono::year{2026} / 7 / 1;
  plan.trip.zone = "Europe/Dublin";
  plan.trip.start = plan.schedule.start = Clock{9 * 60};
  plan.schedule.act_by = Clock{18 * 60};
  const earth::UtcSeconds over = std::chrono::sys_days{plan.trip.date} + hours{17};
  EXPECT_FALSE(past_warning(plan, over));
  const auto past = past_warning(plan, over + seconds{1});
  ASSERT_TRUE(past);
  EXPECT_EQ(past->severity, Severity::caution);
  EXPECT_EQ(past->reach, Reach::card);
  EXPECT_NE(past->text.find("Wed 1 Jul 2026, is past"), std::string::npos) << past->text;
  plan.trip.language = Language::german;
  EXPECT_NE(past_warning(plan, over + seconds{1})->text.find("ist vorbei"), std::string::npos);
}

}  // namespace
}  // namespace lodeway::trip
