// In snow: the slope limit, steep ground told with its aspect, and what is not judged.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::trip {
namespace {

const earth::GridPoint fells{480'600, 6'050'000};  // 54.6 N, 9.3 W

Trip winter_trip() {
  Trip trip;
  trip.date = std::chrono::year{2026} / 2 / 14;
  trip.zone = "Europe/Dublin";
  trip.start = Clock{540};
  return trip;
}

/// One leg of an hour, 3 km to the north.
Plan plan_of(Trip trip) {
  Plan plan;
  plan.trip = std::move(trip);
  PlannedLeg leg;
  leg.course.line = {fells, {fells.east_m, fells.north_m + 3000}};
  leg.judged.minutes = 60;
  leg.judged.minutes_slow = 80;
  plan.way.legs = {leg};
  return plan;
}

/// A plane that falls `degrees` towards a grid bearing, 20 m cells about the fells' leg.
walking::Ground falling(double degrees, double towards_deg) {
  walking::Ground ground;
  ground.grid = earth::MapGrid::from_text("EPSG:32629").value();
  ground.elevation =
      terrain::Elevation(terrain::Frame{fells.east_m - 1000, fells.north_m + 4000, 20, 250, 100});
  const double rad = std::numbers::pi / 180, fall = std::tan(degrees * rad);
  for (int r = 0; r < 250; ++r) {
    for (int c = 0; c < 100; ++c) {
      const auto p = ground.elevation.frame().centre(r, c) - fells;
      ground.elevation[r, c] =
          static_cast<float>(5000 - fall * (p.east_m * std::sin(towards_deg * rad) +
                                            p.north_m * std::cos(towards_deg * rad)));
    }
  }
  return ground;
}

TEST(Snow, TellsSteepGroundWithItsAspect) {
  auto trip = winter_trip();
  const auto said = [&](const walking::Ground& ground, const std::string& part) {
    auto plan = plan_of(trip);
    plan.way.legs[0].escape.emplace();
    plan.way.legs[0].escape->line = {fells, {fells.east_m, fells.north_m + 500}};
    return std::ranges::any_of(warnings_for(plan, ground), [&](const Warning& w) {
      return w.text.find(part) != std::string::npos;
    });
  };
  EXPECT_FALSE(said(falling(35, 45), "facing")) << "no snow";
  trip.request.party.visibility = mapdata::Visibility::snow;
  trip.request.party.max_slope_deg = snow_max_slope_deg;
  EXPECT_TRUE(said(falling(35, 45),
                   "Leg 1: 3000 m on ground of 30 to 45° in the height model, "
                   "facing NE."));
  EXPECT_TRUE(said(falling(44, 270),
                   "Escape route of leg 1: 500 m on ground of 30 to 45° in the "
                   "height model, facing W."));
  EXPECT_FALSE(said(falling(29, 45), "facing"));
  EXPECT_FALSE(said(falling(46, 45), "facing")) << "kept off, not walked";
  EXPECT_TRUE(said(falling(10, 45), "slopes above the way are not judged"));
  EXPECT_TRUE(said(falling(10, 45), "avalanche warning service"));
  EXPECT_TRUE(said(falling(10, 45), "ground steeper than 30°"));
  trip.language = Language::german;
  EXPECT_TRUE(said(falling(35, 90), "Ausrichtung O."));
}

}  // namespace
}  // namespace lodeway::trip
