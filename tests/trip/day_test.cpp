// The sun's day by the trip's own clock, and what is said of zones, changes of the clock, nights.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::trip {
namespace {

walking::Ground ground_in(const char* crs) {
  walking::Ground ground;
  ground.grid = earth::MapGrid::from_text(crs).value();
  return ground;
}

Trip trip_on(std::chrono::year_month_day date, const char* zone, Clock start) {
  Trip trip;
  trip.date = date;
  trip.zone = zone;
  trip.start = start;
  return trip;
}

constexpr auto the_25th = std::chrono::year{2026} / 10 / 25;
const earth::GridPoint fells{480'600, 6'050'000};  // 54.6 N, 9.3 W

// On the day on which clocks go back in Dublin sunset is at 17:16 for who starts after the change.
TEST(Day, SunsetOfADayOnWhichClocksChange) {
  const auto day = daylight_of(ground_in("EPSG:32629"),
                               trip_on(the_25th, "Europe/Dublin", Clock{9 * 60}), fells);
  ASSERT_TRUE(day);
  EXPECT_NEAR(static_cast<double>(day->set->count()), 17 * 60 + 16, 1);
  // Who starts before the change still has the old clock: an hour later on the same watch.
  const auto night =
      daylight_of(ground_in("EPSG:32629"), trip_on(the_25th, "Europe/Dublin", Clock{30}), fells);
  ASSERT_TRUE(night);
  EXPECT_NEAR(static_cast<double>(night->set->count()), 18 * 60 + 16, 1);
}

// 60.4 N on 1 July: last light is 00:5x of the next day, after sunset, and says so.
TEST(Day, LastLightAfterMidnight) {
  const auto ground = ground_in("EPSG:32632");
  const auto at = ground.grid.to_grid({60.4, 5.3}).value();
  const auto day = daylight_of(
      ground, trip_on(std::chrono::year{2026} / 7 / 1, "Europe/Oslo", Clock{9 * 60}), at);
  ASSERT_TRUE(day && day->dusk && day->set && day->dawn && day->rise);
  EXPECT_LT(*day->dawn, *day->rise);
  EXPECT_LT(*day->rise, *day->set);
  EXPECT_LT(*day->set, *day->dusk);
  EXPECT_GT(*day->dusk, Clock{24 * 60 + 30});
  EXPECT_TRUE(clock_text(*day->dusk).starts_with("00:")) << clock_text(*day->dusk);
  EXPECT_TRUE(clock_text(*day->dusk).ends_with(" +1")) << clock_text(*day->dusk);
}

// 62.5 N in June: the sun sets, but it does not get dark; nothing is computed from a dusk that is
// not there.
TEST(Day, ANightWithoutDarknessIsSaid) {
  const auto ground = ground_in("EPSG:32635");
  const auto at = ground.grid.to_grid({62.5, 25.7}).value();
  auto trip = trip_on(std::chrono::year{2026} / 6 / 15, "Europe/Helsinki", Clock{9 * 60});
  const auto day = daylight_of(ground, trip, at);
  ASSERT_TRUE(day && day->set && !day->dusk);
  EXPECT_EQ(day->state, "it does not get dark that night");
  EXPECT_FALSE(held_to_daylight(trip, *day));
  trip.language = Language::german;
  EXPECT_EQ(daylight_of(ground, trip, at)->state, "es wird in dieser Nacht nicht dunkel");
  trip.date = std::chrono::year{2026} / 12 / 21;
  const auto far = ground_in("EPSG:32633");
  const auto dark = daylight_of(far, trip, far.grid.to_grid({78.2, 15.6}).value());
  ASSERT_TRUE(dark && !dark->dusk && !dark->dawn);
  EXPECT_NE(dark->state.find("es bleibt den ganzen Tag dunkel"), std::string::npos) << dark->state;
}

/// One leg of an hour, 3 km to the north.
Plan plan_of(Trip trip) {
  Plan plan;
  plan.trip = std::move(trip);
  plan.trip.emergency_number = "112";
  PlannedLeg leg;
  leg.course.line = {fells, {fells.east_m, fells.north_m + 3000}};
  leg.judged.minutes = 60;
  leg.judged.minutes_slow = 80;
  plan.way.legs = {leg};
  plan.daylight = daylight_of(ground_in("EPSG:32629"), plan.trip, fells).value();
  plan.schedule = make_schedule(plan.trip, as_judged(plan.way), plan.daylight, {60});
  return plan;
}

bool warned(const Plan& plan, const std::string& part) {
  return std::ranges::any_of(warnings_for(plan, ground_in("EPSG:32629")), [&](const Warning& w) {
    return w.text.find(part) != std::string::npos;
  });
}

TEST(Day, AZoneFarOffTheSunIsAskedAbout) {
  const auto november = std::chrono::year{2026} / 11 / 14;
  EXPECT_FALSE(warned(plan_of(trip_on(november, "Europe/Dublin", Clock{540})), "time zone"));
  EXPECT_FALSE(warned(plan_of(trip_on(november, "UTC", Clock{540})), "time zone"));
  // 9.3 W is 37 min behind Greenwich, Oslo's clock 60 min ahead of it.
  EXPECT_TRUE(warned(plan_of(trip_on(november, "Europe/Oslo", Clock{540})),
                     "Is the time zone right? Without summer time the clock of Europe/Oslo is "
                     "1 h 37 ahead of the sun"));
  EXPECT_TRUE(warned(plan_of(trip_on(november, "America/Denver", Clock{540})), "behind the sun"));
  auto german = trip_on(november, "Europe/Oslo", Clock{540});
  german.language = Language::german;
  EXPECT_TRUE(warned(plan_of(german), "Stimmt die Zeitzone?"));
}

// Out at 23:00 on the 24th, home acts 23:00 + 80 + 60 min = 01:20; clocks go back at 02:00.
TEST(Day, ClocksThatChangeOnTheWay) {
  auto trip = trip_on(std::chrono::year{2026} / 10 / 24, "Europe/Dublin", Clock{23 * 60});
  EXPECT_FALSE(warned(plan_of(trip), "Clocks are put"));
  trip.start = Clock{23 * 60 + 50};  // acts at 02:10, by the changed clock 01:10
  EXPECT_TRUE(warned(plan_of(trip), "Clocks are put back by 1 h 00 at 02:00 +1"));
  EXPECT_TRUE(warned(plan_of(trip), "By the changed clock, call for help at 01:10 +1"));
}

TEST(Day, ANightThatIsPlannedIsNoSurprise) {
  auto trip = trip_on(std::chrono::year{2026} / 11 / 14, "Europe/Dublin", Clock{16 * 60 + 30});
  EXPECT_TRUE(warned(plan_of(trip), "The way ends in the dark"));
  trip.request.party.visibility = mapdata::Visibility::night;
  EXPECT_FALSE(warned(plan_of(trip), "in the dark"));
  trip.start = Clock{22 * 60};
  EXPECT_FALSE(warned(plan_of(trip), "in the dark"));
  EXPECT_FALSE(plan_of(trip).schedule.latest_start);
}

TEST(Day, AWayThatEndsElsewhereIsOneWay) {
  auto plan = plan_of(trip_on(std::chrono::year{2026} / 6 / 14, "Europe/Dublin", Clock{9 * 60}));
  EXPECT_TRUE(plan.schedule.one_way);
  auto back = plan.way.legs.front();
  std::ranges::reverse(back.course.line);
  plan.way.legs.push_back(back);
  EXPECT_FALSE(make_schedule(plan.trip, as_judged(plan.way), plan.daylight, {60, 120}).one_way);
}

TEST(Day, WaterThatOnlyTheHeightsSuggestIsWarnedOf) {
  const auto plan = plan_of(trip_on(std::chrono::year{2026} / 6 / 14, "Europe/Dublin", Clock{540}));
  auto ground = ground_in("EPSG:32629");
  ground.map.areas.push_back({{mapdata::Kind::lake, "", mapdata::Origin::from_relief},
                              {{0, 0}, {100, 0}, {100, 100}},
                              {}});
  const auto warnings = warnings_for(plan, ground);
  EXPECT_TRUE(std::ranges::any_of(warnings, [](const Warning& w) {
    return w.severity == Severity::caution &&
           w.text.starts_with("The map shows no lakes: 1 dead-flat areas");
  }));
}

/// A plane that falls `degrees` towards a grid bearing, 20 m cells about the fells' leg.
walking::Ground falling(double degrees, double towards_deg) {
  auto ground = ground_in("EPSG:32629");
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

TEST(Day, SnowTellsSteepGroundWithItsAspect) {
  auto trip = trip_on(std::chrono::year{2026} / 2 / 14, "Europe/Dublin", Clock{540});
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

TEST(Day, AStartIsReadWithItsZone) {
  EXPECT_EQ(zoned("09:15", trip_on(the_25th, "Europe/Dublin", Clock{555})),
            "09:15 (Europe/Dublin)");
}

}  // namespace
}  // namespace lodeway::trip
