// Who is where when, and what tells one day's sheets from another's.
#include "lodeway/learn/course/timetable.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "lodeway/learn/course/codes.hpp"

namespace lodeway::learn {
namespace {

/// A day with all parts, on squared paper.
TrainingDay whole_day(double spread_m) {
  TrainingDay d;
  d.seed = 7;
  d.from = {0, 0};
  d.magnetic_from_grid_deg = -3;
  d.settings.resize(20);
  d.paces = {{PaceGround::level, {0, 0}, {0, 100}, 100, 0}};
  for (int i = 0; i < 4; ++i) {
    BearingCourse b;
    b.from = {spread_m * i, 100};
    b.peg = {spread_m * i, 500};
    b.length_m = 400;
    d.bearings.push_back(b);
  }
  for (int i = 0; i < 10; ++i) {
    FeatureFind f;
    f.from = {-100, spread_m * i};
    f.at = {-300, spread_m * i};
    f.length_m = 200;
    d.features.push_back(f);
  }
  ForkWalk walk;
  walk.line = {{0, 0}, {0, -1600}};
  walk.length_m = 1600;
  walk.forks.resize(12);
  d.forks = walk;
  d.drops.resize(3);
  return d;
}

TEST(Timetable, NoPairIsOutAloneNobodyIsAtTwoPlacesAndEachDoesAll) {
  for (const double spread : {0.0, 100.0, 400.0}) {
    const auto table = timetable_of(whole_day(spread));
    std::array<std::multiset<Station>, pair_count> done;
    for (const auto& s : table.slots) {
      done.at(static_cast<std::size_t>(s.pair)).insert(s.station);
      EXPECT_EQ(s.instructor < 0, s.station == Station::base);
      EXPECT_EQ(s.instructor == instructor_count, s.station == Station::drops);
      EXPECT_GE(s.begin_min, briefing_min);
      EXPECT_LE(s.end_min, table.minutes);
      for (const auto& o : table.slots) {
        if (&o == &s || o.end_min <= s.begin_min || s.end_min <= o.begin_min) continue;
        EXPECT_NE(o.pair, s.pair);
        if (s.station == Station::drops) continue;  // all together
        EXPECT_TRUE(s.instructor < 0 || o.instructor != s.instructor);
      }
    }
    const std::multiset<Station> all{Station::base, Station::bearings, Station::features,
                                     Station::forks, Station::drops};
    for (const auto& d : done) EXPECT_EQ(d, all);
  }
}

// Bearings 4 x 0.4 km x 25 = 40, the way from peg to peg 400 m back, 19.5 min a km: from (0,0) to
// (0,100) 1.95, three times 7.8, back 500 m 9.75: 75.1, so 80. Forks 1.6 x 15 + 12 = 36 and 1.6 km
// back 31.2: 67.2, so 70. Desk and paces 50. Drops at the start 15.
TEST(Timetable, MinutesAreWhatTheRulesAddUpTo) {
  const auto day = whole_day(0);
  EXPECT_EQ(minutes_at(day, Station::bearings), 80);
  EXPECT_EQ(minutes_at(day, Station::forks), 70);
  EXPECT_EQ(minutes_at(day, Station::base), 50);
  EXPECT_EQ(minutes_at(day, Station::drops), 15);
  TrainingDay none;
  for (const auto s : {Station::base, Station::bearings, Station::features, Station::forks})
    EXPECT_EQ(minutes_at(none, s), 0);
}

TEST(Timetable, TheOrderOfCoursesWalksLittleBetweenThem) {
  auto day = whole_day(300);
  std::ranges::reverse(day.bearings);
  const auto table = timetable_of(day);
  EXPECT_EQ(table.bearings, (std::vector<std::size_t>{3, 2, 1, 0}));
}

// Two instructors, three pairs: the shortest cannot be below the instructors' own time. Both have
// 3 x (80 + features + 70) between them.
TEST(Timetable, IsNotLongerThanHalfAnHourAboveWhatTwoInstructorsNeed) {
  const auto day = whole_day(0);
  const int each = minutes_at(day, Station::bearings) + minutes_at(day, Station::features) +
                   minutes_at(day, Station::forks);
  const auto table = timetable_of(day);
  const int least = briefing_min + (3 * each + 1) / 2 + minutes_at(day, Station::drops);
  EXPECT_GE(table.minutes, least);
  EXPECT_LE(table.minutes, least + 30);
}

TEST(Codes, DifferByDatePlaceSeedAndGround) {
  using std::chrono::year, std::chrono::month, std::chrono::day;
  const std::chrono::year_month_day date{year{2026}, month{10}, day{3}},
      next{year{2026}, month{10}, day{4}};
  const auto a = whole_day(100);
  auto seed = a, place = a, peg = a, north = a;
  seed.seed = 8;
  place.from.east_m += 1;
  peg.bearings[2].peg.north_m += 1;
  north.magnetic_from_grid_deg = -2.9;
  const std::set<std::string> all{day_code("C1880F", a, date),     day_code("C1880F", a, next),
                                  day_code("C1880E", a, date),     day_code("C1880F", seed, date),
                                  day_code("C1880F", place, date), day_code("C1880F", peg, date),
                                  day_code("C1880F", north, date)};
  EXPECT_EQ(all.size(), 7U);
  EXPECT_EQ(day_code("C1880F", a, date), day_code("C1880F", a, date));
  EXPECT_TRUE(day_code("C1880F", a, date).starts_with("C1880F-7-"));
}

TEST(Codes, ACourseBelongsToItsDayAlone) {
  const std::string day = "C1880F-7-3FA2", other = "C1880F-7-3FA3";
  for (const auto& m : marks_of(whole_day(100), day)) {
    EXPECT_TRUE(is_of_day(day, m.course)) << m.course;
    EXPECT_FALSE(is_of_day(other, m.course)) << m.course;
  }
  EXPECT_EQ(course_code(day, "B1").substr(0, 3), "B1-");
  EXPECT_FALSE(is_of_day(day, "B1"));
  EXPECT_FALSE(is_of_day(day, ""));
  EXPECT_NE(course_signs(day, "B1"), course_signs(day, "B2"));
}

}  // namespace
}  // namespace lodeway::learn
