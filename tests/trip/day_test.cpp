// The sun's day by the trip's own clock, and what is said of zones, changes of the clock, nights.
#include <algorithm>

#include <gtest/gtest.h>

#include "lodeway/earth/sun.hpp"
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

// On the day on which clocks go back in Dublin sunset is at 17:16, for who starts before the change
// as for who starts after it.
TEST(Day, SunsetOfADayOnWhichClocksChange) {
  for (const Clock start : {Clock{9 * 60}, Clock{30}}) {
    const auto day =
        daylight_of(ground_in("EPSG:32629"), trip_on(the_25th, "Europe/Dublin", start), fells);
    ASSERT_TRUE(day && day->set);
    EXPECT_EQ(clock_text(*day->set, *day), "17:16");
  }
}

/// An instant by the zone's offset at that instant, rounded to the minute: "07:41".
std::string shown_by(const std::string& zone, earth::UtcSeconds at) {
  const auto local = at + earth::utc_offset(zone, at).value();
  const auto minutes = std::chrono::floor<std::chrono::minutes>(
      local - std::chrono::floor<std::chrono::days>(local) + std::chrono::seconds{30});
  return clock_text(minutes);
}

// Every kind of zone: clocks forward and back, by an hour and by half of one, offsets of half and
// quarter hours, days without a change. The offset of each event's own instant is the judge.
TEST(Day, EachEventHasItsOwnOffset) {
  using namespace std::chrono;
  struct Case {
    const char* zone;
    year_month_day date;
    const char* crs;
    earth::Geographic at;
  };
  const Case cases[] = {
      {"Europe/Dublin", year{2026} / 3 / 29, "EPSG:32629", {54.6, -9.3}},
      {"Europe/Dublin", year{2026} / 10 / 25, "EPSG:32629", {54.6, -9.3}},
      {"Europe/Dublin", year{2026} / 10 / 24, "EPSG:32629", {54.6, -9.3}},
      {"Australia/Lord_Howe", year{2026} / 10 / 4, "EPSG:32757", {-31.55, 159.08}},
      {"Australia/Lord_Howe", year{2026} / 4 / 5, "EPSG:32757", {-31.55, 159.08}},
      {"Asia/Kathmandu", year{2026} / 10 / 25, "EPSG:32645", {27.9, 86.8}},
      {"Asia/Kolkata", year{2026} / 3 / 29, "EPSG:32644", {30.4, 79.6}},
      {"America/St_Johns", year{2026} / 11 / 1, "EPSG:32622", {47.5, -52.9}},
      {"UTC", year{2026} / 6 / 14, "EPSG:32629", {54.6, -9.3}},
  };
  for (const auto& c : cases) {
    const auto ground = ground_in(c.crs);
    const auto place = ground.grid.to_grid(c.at).value();
    const auto sun = earth::sun_day(c.at, c.date, c.zone);
    ASSERT_TRUE(sun);
    for (const int start : {15, 2 * 60 + 30, 9 * 60, 23 * 60 + 45}) {
      const auto day = daylight_of(ground, trip_on(c.date, c.zone, Clock{start}), place);
      ASSERT_TRUE(day && day->dawn && day->rise && day->set && day->dusk);
      const auto said = [&](const std::optional<Clock>& t) { return clock_text(*t, *day); };
      EXPECT_EQ(said(day->dawn), shown_by(c.zone, *sun->civil.up)) << c.zone << start;
      EXPECT_EQ(said(day->rise), shown_by(c.zone, *sun->sun.up)) << c.zone << start;
      EXPECT_EQ(said(day->set), shown_by(c.zone, *sun->sun.down)) << c.zone << start;
      EXPECT_EQ(said(day->dusk), shown_by(c.zone, *sun->civil.down)) << c.zone << start;
      EXPECT_EQ(clock_text(Clock{start}, *day), clock_text(Clock{start})) << "the start stands";
    }
  }
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
  plan.trip.request.party.time_band = 0.2;
  const auto way = as_judged(plan.way);
  plan.schedule =
      make_schedule(plan.trip, way, plan.daylight, {60}, slow_day_of(plan.trip.request, way));
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

// Out at 23:00 on the 24th, and home calls for help before clocks go back at 02:00; then later.
TEST(Day, ClocksThatChangeOnTheWay) {
  auto trip = trip_on(std::chrono::year{2026} / 10 / 24, "Europe/Dublin", Clock{22 * 60});
  EXPECT_FALSE(warned(plan_of(trip), "Clocks are put"));
  trip.start = Clock{23 * 60 + 50};
  const auto plan = plan_of(trip);
  EXPECT_TRUE(warned(plan, "Clocks are put back by 1 h 00 at 02:00 +1"));
  const auto& s = plan.schedule;
  ASSERT_GT(s.act_by, Clock{26 * 60});
  EXPECT_EQ(clock_text(s.act_by.value(), plan.daylight), clock_text(*s.act_by - Clock{60}));
  EXPECT_EQ(clock_text(s.end, plan.daylight), clock_text(s.end)) << "before the change";
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
  const auto way = as_judged(plan.way);
  EXPECT_FALSE(
      make_schedule(plan.trip, way, plan.daylight, {60, 120}, slow_day_of(plan.trip.request, way))
          .one_way);
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
           w.text.starts_with("The map shows no lakes: one dead-flat area of");
  }));
}

TEST(Day, AStartIsReadWithItsZone) {
  EXPECT_EQ(zoned("09:15", trip_on(the_25th, "Europe/Dublin", Clock{555})),
            "09:15 (Europe/Dublin)");
}

}  // namespace
}  // namespace lodeway::trip
