/// From a judged way to the plan, on a slope made by hand.
#include "lodeway/trip/make_plan.hpp"

#include <gtest/gtest.h>

#include "lodeway/magnetic/declination.hpp"
#include "lodeway/walking/cover.hpp"

namespace lodeway::trip {
namespace {

/// 4 km square in UTM 29N, west of its central meridian; the ground rises eastwards, 1 in 5.
struct UpASlope : testing::Test {
  UpASlope() {
    ground.grid = *earth::MapGrid::from_text("EPSG:32629");
    ground.elevation = terrain::Elevation(terrain::Frame{478000, 6054000, 20, 200, 200});
    for (int r = 0; r < 200; ++r)
      for (int c = 0; c < 200; ++c) ground.elevation[r, c] = static_cast<float>(100 + 4 * c);
    trip.date = std::chrono::year{2026} / 6 / 10;
    trip.start = std::chrono::minutes{9 * 60};
    trip.zone = "Europe/Dublin";
    trip.request.party.flat_speed_kmh = 5;
    trip.request.party.rest_every_min = 0;
    trip.request.party.time_band = 0.15;  // the model as it is
    trip.request.points = {{"a", start}, {"c", end}};
    for (const auto& [from, to] : {std::pair{start, middle}, std::pair{middle, end}}) {
      auto& leg = way.legs.emplace_back();
      leg.course.kind = walking::LegKind::bearing;
      leg.course.line = {from, to};
      leg.figures = walking::figures_of(leg.course, ground, trip.request.party);
      leg.judged.length_m = leg.figures.length_m + 25;  // 25 m more along a line that is met
      leg.judged.minutes = leg.figures.minutes;
      leg.judged.minutes_slow = 1.2 * leg.figures.minutes;
      leg.judged.certainty = 0.9;
      auto& needle = leg.judged.needle.emplace();
      needle.aim = to;
      needle.bearing = earth::grid_bearing(from, to);
      needle.map_m = 1000;
    }
  }
  const earth::GridPoint start{479000, 6052000}, middle{480000, 6052000}, end{481000, 6052000};
  walking::Ground ground;
  Trip trip;
  reckoning::JudgedWay way;
};

// Naismith with Langmuir: up 200 m in 1000 m, 12 + 20 min; down again 1 in 5, between 5 and 12
// degrees, 12 min less 10 for 300 m: 5.3 min, and at most twice that on a slow day.
TEST_F(UpASlope, TheWayBackIsDownhill) {
  const auto outcome = outcome_of(ground, trip, way);
  ASSERT_TRUE(outcome) << outcome.error().what;
  EXPECT_NEAR(way.legs[0].figures.minutes, 32, 0.1);
  EXPECT_EQ(outcome->schedule.turn_round_leg, 0);
  EXPECT_GE(outcome->schedule.turn_round_back_min, 5.3);
  EXPECT_LE(outcome->schedule.turn_round_back_min, 10.7);
}

// To the east of the grid, 90; grid north lies 0.250 degrees west of true there (0.306 degrees of
// longitude from the central meridian, times the sine of 54.6); the needle by the declination.
TEST_F(UpASlope, TheNeedleIsTurnedByBothNorths) {
  const auto outcome = outcome_of(ground, trip, way);
  ASSERT_TRUE(outcome);
  const auto plan = plan_of(*outcome, trip, ground);
  const auto at = *ground.grid.to_geographic(start);
  const auto field = magnetic::field_at(at, 300, trip.date);
  ASSERT_TRUE(field);
  const double declination = field->declination.east.in_degrees();
  EXPECT_LT(declination, -1);
  const double convergence = (at.lon_deg + 9) * std::sin(at.lat_deg * 3.14159265358979 / 180);
  for (const auto& bearing : {plan.way.legs[0].needle->magnetic, plan.way.legs[0].magnetic_bearing,
                              plan.way.legs[0].first_magnetic_bearing})
    EXPECT_NEAR(bearing.in_degrees(), 90 + convergence - declination, 0.01);
  EXPECT_NEAR(plan.way.legs[0].needle->map_mm, 40, 1e-9) << "1000 m at 1 : 25 000";
}

// The first leg starts on safe ground: its line on the card has the way out from its end.
TEST_F(UpASlope, TheEscapeRouteOfALegFromSafeGroundIsItsEnds) {
  using reckoning::LeavesAt;
  reckoning::Escape here, out;
  here.to = "a";
  out.from = LeavesAt::end;
  out.to = "road";
  out.minutes = 26;
  out.legs = {way.legs[1]};
  const auto outcome = outcome_of(ground, trip, way, {{here, out}, {out}});
  ASSERT_TRUE(outcome) << outcome.error().what;
  const auto plan = plan_of(*outcome, trip, ground);
  ASSERT_TRUE(plan.way.legs[0].escape);
  EXPECT_TRUE(plan.way.legs[0].escape->from_end);
  EXPECT_EQ(plan.way.legs[0].escape->minutes, 26);
  EXPECT_TRUE(escape_words(*plan.way.legs[0].escape, trip).starts_with("from its end "));
  EXPECT_FALSE(plan.way.legs[1].escape->from_end);
}

// Where some stray onto ground to keep off it is told what that is and on which hand; not where the map
// names something there, nor where so few do that their share is not told.
TEST_F(UpASlope, WhatPartiesStrayOntoHasAPlace) {
  using mapdata::Side;
  way.legs[0].judged.hazard_probability = 0.0051;
  way.legs[0].barred_beside = {{walking::Bar::steep, Side::left, 40, 300},
                               {walking::Bar::river, Side::right, 120, 50}};
  way.legs[0].dangers = {{"Orrin Scar, cliff, 30 m to your right", Side::right, 30}};
  way.legs[1] = way.legs[0];
  way.legs[1].judged.hazard_probability = 0.0049;
  const auto told = [&] {
    std::vector<std::vector<std::string>> out;
    const auto plan = plan_of(*outcome_of(ground, trip, way), trip, ground);
    for (const auto& leg : plan.way.legs) {
      auto& words = out.emplace_back();
      for (const auto& d : leg.dangers) words.push_back(d.what);
    }
    return out;
  };
  using Words = std::vector<std::vector<std::string>>;
  EXPECT_EQ(told(), (Words{{"Orrin Scar, cliff, 30 m to your right",
                            "ground over the party's slope limit, 40 m to your left after 300 m"},
                           {"Orrin Scar, cliff, 30 m to your right"}}));
  trip.language = Language::german;
  EXPECT_EQ(told()[0][1], "Gelände, das steiler ist als eure Grenze, 40 m links nach 300 m");
}

TEST_F(UpASlope, TheSumsAreOfWhatIsWalked) {
  const auto outcome = outcome_of(ground, trip, way);
  ASSERT_TRUE(outcome);
  const auto plan = plan_of(*outcome, trip, ground);
  EXPECT_NEAR(plan.length_m, way.legs[0].figures.length_m + way.legs[1].figures.length_m + 50,
              1e-6);
  EXPECT_NEAR(plan.climb_m, 400, 5);
  EXPECT_NEAR(plan.descent_m, 0, 0.5);
}

TEST_F(UpASlope, NoLegsNoPlan) {
  way.legs.clear();
  const auto outcome = outcome_of(ground, trip, way);
  ASSERT_FALSE(outcome);
  EXPECT_EQ(outcome.error().code, FaultCode::no_way);
}

}  // namespace
}  // namespace lodeway::trip
