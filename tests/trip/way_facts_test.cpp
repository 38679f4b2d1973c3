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
