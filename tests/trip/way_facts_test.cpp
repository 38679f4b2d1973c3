// What a verdict is told of a plan.
#include "lodeway/trip/way_facts.hpp"

#include <algorithm>

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

/// One leg of an hour, 3 km to the north.
Plan one_leg() {
  Plan plan;
  PlannedLeg leg;
  leg.course.line = {{480'600, 6'050'000}, {480'600, 6'053'000}};
  leg.judged.minutes = 60;
  leg.judged.certainty = 0.97;
  plan.way.legs = {leg};
  plan.schedule.legs.resize(1);
  return plan;
}

// A leg that ends by the count loses people as much as one that ends at a gate.
TEST(WayFacts, ALegThatEndsByTheCountIsJudgedToo) {
  auto plan = one_leg();
  plan.way.legs[0].judged.fix_at_end = false;
  plan.way.legs[0].judged.certainty = 0.28;
  const auto verdict = verdict_of(facts_of(plan, {}), limits_of(plan.trip));
  EXPECT_EQ(verdict.band, Band::outside);
  EXPECT_TRUE(std::ranges::any_of(verdict.reasons, [](const Reason& r) {
    return r.what == Fails::lost_leg && r.leg == 0 && r.value == 0.28;
  }));
}

// Who did not plan for the night and walks in the dark is outside, whether the light is gone or not
// yet there.
TEST(WayFacts, WalkingInTheDarkIsOutside) {
  const auto reason_at = [](Clock start, Clock end_slow, mapdata::Visibility visibility) {
    auto plan = one_leg();
    plan.trip.request.party.visibility = visibility;
    plan.daylight.dawn = Clock{7 * 60};
    plan.daylight.dusk = Clock{17 * 60};
    plan.trip.start = plan.schedule.start = start;
    plan.schedule.end_slow = end_slow;
    const auto verdict = verdict_of(facts_of(plan, {}), limits_of(plan.trip));
    for (const auto& r : verdict.reasons) {
      if (r.what == Fails::dark || r.what == Fails::dark_start) return std::pair(r.what, r.value);
    }
    return std::pair(Fails::wade, 0.0);
  };
  using enum mapdata::Visibility;
  EXPECT_EQ(reason_at(Clock{18 * 60}, Clock{20 * 60}, clear), std::pair(Fails::dark, 180.0));
  EXPECT_EQ(reason_at(Clock{15}, Clock{150}, clear), std::pair(Fails::dark_start, 405.0));
  EXPECT_EQ(reason_at(Clock{9 * 60}, Clock{12 * 60}, clear), std::pair(Fails::wade, 0.0));
  EXPECT_EQ(reason_at(Clock{15}, Clock{150}, night), std::pair(Fails::wade, 0.0));
}

// Water to wade is told of the legs whose cards tell a ford: of rivers, and where the map has one.
TEST(WayFacts, WaterToWadeIsOfTheFordsThatAreTold) {
  auto plan = one_leg();
  walking::Ground ground;
  const earth::GridPoint at{480'600, 6'051'000};
  const auto wades = [&] { return facts_of(plan, ground).legs[0].wades; };
  ground.map.points.push_back({{mapdata::Kind::ford, ""}, at, 0});
  EXPECT_EQ(wades(), 0);  // beside the leg, and none on its card
  FordAhead ford;
  ford.at = at + earth::GridPoint{14, 0};
  plan.way.legs[0].fords = {ford};
  EXPECT_EQ(wades(), 1);
  ground.map.points.clear();
  EXPECT_EQ(wades(), 0);  // a stream is stepped over
  plan.way.legs[0].fords[0].kind = mapdata::Kind::river;
  EXPECT_EQ(wades(), 1);
}

// What only the heights suggest is no knowledge of water.
TEST(WayFacts, WaterIsKnownFromAMapOnly) {
  const auto plan = one_leg();
  walking::Ground ground;
  EXPECT_TRUE(facts_of(plan, ground).water_unknown);
  mapdata::LineFeature stream;
  stream.label = {mapdata::Kind::stream, "", mapdata::Origin::from_relief};
  ground.map.lines.push_back(stream);
  EXPECT_TRUE(facts_of(plan, ground).water_unknown);
  ground.map.lines.back().label.origin = mapdata::Origin::mapped;
  EXPECT_FALSE(facts_of(plan, ground).water_unknown);
}

}  // namespace
}  // namespace lodeway::trip
