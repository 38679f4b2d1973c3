#include "lodeway/earth/sun.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <sstream>

#include <gtest/gtest.h>

#include "support/support.hpp"

namespace lodeway::earth {
namespace {

using std::chrono::days;
using std::chrono::seconds;
using std::chrono::sys_days;

UtcSeconds instant(int y, unsigned m, unsigned d, int hour, int minute, int second = 0) {
  return sys_days{std::chrono::year{y} / std::chrono::month{m} / std::chrono::day{d}} +
         std::chrono::hours{hour} + std::chrono::minutes{minute} + seconds{second};
}

/// "2020-01-05T12:00:00Z" or "2020-01-05T12:00Z"
UtcSeconds instant(const std::string& text) {
  int y = 0, hour = 0, minute = 0, second = 0;
  unsigned m = 0, d = 0;
  EXPECT_GE(std::sscanf(text.c_str(), "%d-%u-%uT%d:%d:%d", &y, &m, &d, &hour, &minute, &second), 5)
      << text;
  return instant(y, m, d, hour, minute, second);
}

enum class Event : unsigned char { rise, set, dawn, dusk };

/// The zone of whole hours that lies nearest to a meridian ("Etc/GMT-1" is one hour EAST).
std::string hour_zone(double lon_deg) {
  const int hours = static_cast<int>(std::lround(lon_deg / 15));
  return hours == 0
             ? "UTC"
             : "Etc/GMT" + std::string(hours > 0 ? "-" : "+") + std::to_string(std::abs(hours));
}

/// How far our nearest event is from a published one, seconds; a day where there is none.
double missed_s(Geographic at, UtcSeconds published, Event event) {
  double nearest = 86400;
  for (const int k : {0, -1, 1}) {
    const auto day =
        sun_day(at, std::chrono::floor<days>(published) + days{k}, hour_zone(at.lon_deg));
    if (!day) return nearest;
    const auto& ours = event == Event::rise   ? day->sun.up
                       : event == Event::set  ? day->sun.down
                       : event == Event::dawn ? day->civil.up
                                              : day->civil.down;
    if (ours) {
      nearest = std::min(nearest, std::abs(static_cast<double>((*ours - published).count())));
    }
    if (nearest < 60) break;
  }
  return nearest;
}

struct Checked {
  int events = 0;
  double worst_s = 0;
  std::string where;
  void add(double missed, const std::string& row) {
    ++events;
    if (missed > worst_s) {
      worst_s = missed;
      where = row;
    }
  }
};

/// Rows of "instant,lat,lon,…" with clock times of a rise and a set on that day of UT; those
/// without are passed over.
Checked check_file(const char* file, std::size_t rise, std::size_t set, Event up, Event down) {
  Checked out;
  for (const auto& row : support::read_csv(file)) {
    const Geographic at{std::stod(row[1]), std::stod(row[2])};
    for (const auto& [column, event] : {std::pair{rise, up}, std::pair{set, down}}) {
      if (row.size() <= column || row[column].empty()) continue;
      const auto published = instant(row[0].substr(0, 11) + row[column]);
      out.add(missed_s(at, published, event), row[0] + " " + row[1]);
    }
  }
  return out;
}

// US Naval Observatory, whole minutes of UT: 30 s of their rounding, and the seconds that these
// formulas differ from a full ephemeris. Every row.
TEST(Sun, NavalObservatoryRiseAndSet) {
  const auto c = check_file("sun/usno_reference_testdata.csv", 4, 5, Event::rise, Event::set);
  EXPECT_EQ(c.events, 288);
  EXPECT_LE(c.worst_s, 36) << c.where;
}

TEST(Sun, NavalObservatoryCivilTwilight) {
  const auto c =
      check_file("sun/usno_reference_testdata_civil.csv", 4, 5, Event::dawn, Event::dusk);
  EXPECT_EQ(c.events, 284);
  EXPECT_LE(c.worst_s, 36) << c.where;
}

// At 78 degrees the sun climbs so flatly that the same hundredths of a degree take longer. The days
// without a sunrise or a sunset, too: every row.
TEST(Sun, NavalObservatoryFarNorthAndSouth) {
  const char* const file = "sun/usno_reference_testdata_extreme.csv";
  const auto c = check_file(file, 4, 5, Event::rise, Event::set);
  EXPECT_EQ(c.events, 50);
  EXPECT_LE(c.worst_s, 60) << c.where;
  int without = 0;
  for (const auto& row : support::read_csv(file)) {
    if (row[3] == "NORMAL") continue;
    const Geographic at{std::stod(row[1]), std::stod(row[2])};
    const auto day = sun_day(at, std::chrono::floor<days>(instant(row[0])), hour_zone(at.lon_deg));
    ASSERT_TRUE(day);
    EXPECT_EQ(day->sun.state, row[3] == "ALL_DAY" ? SunState::always_above : SunState::always_below)
        << row[0];
    EXPECT_FALSE(day->sun.up || day->sun.down);
    ++without;
  }
  EXPECT_EQ(without, 47);
}

// NREL's solar position program (Reda & Andreas 2004), whole seconds, -0.8333 degrees; 1910 to
// 2110.
TEST(Sun, SolarPositionAlgorithm) {
  const auto c =
      check_file("sun/spa_sunrise_reference_testdata.csv", 3, 5, Event::rise, Event::set);
  EXPECT_EQ(c.events, 224);
  EXPECT_LE(c.worst_s, 15) << c.where;
}

// US Naval Observatory: every rise and set of a year at three places (2019) and one (1750).
TEST(Sun, NavalObservatoryWholeYears) {
  Checked checked;
  int polar = 0;
  std::istringstream lines(
      support::read_text(support::tests_folder() + "/published/sun/usno_riseset.txt"));
  std::string body, time, kind;
  double lon = 0, lat = 0;
  while (lines >> body >> lon >> lat >> time >> kind) {
    if (body != "Sun") continue;
    if (std::abs(lat) < 80) {
      checked.add(missed_s({lat, lon}, instant(time), kind == "r" ? Event::rise : Event::set),
                  time);
    } else {
      // Near a pole the sun rolls along the horizon: the height is what can be asked for.
      EXPECT_NEAR(sun_height_deg({lat, lon}, instant(time)), sunrise_height_deg, 0.01) << time;
      ++polar;
    }
  }
  EXPECT_EQ(checked.events, 2920);
  EXPECT_LE(checked.worst_s, 36) << checked.where;
  EXPECT_EQ(polar, 68);
}

// PyEphem 4.1.4, whole seconds, every row.
TEST(Sun, EphemTable) {
  int rows = 0;
  Checked checked;
  const auto state_named = [](const std::string& s) {
    return s == "ALL_DAY"     ? SunState::always_above
           : s == "ALL_NIGHT" ? SunState::always_below
                              : SunState::crosses;
  };
  for (const auto& row : support::read_csv("sun/ephem_2026.csv")) {
    const Geographic at{std::stod(row[0]), std::stod(row[1])};
    const auto day =
        sun_day(at, std::chrono::floor<days>(instant(row[2] + "T00:00Z")), hour_zone(at.lon_deg));
    ASSERT_TRUE(day);
    EXPECT_EQ(day->sun.state, state_named(row[7])) << row[2] << " " << row[0];
    EXPECT_EQ(day->civil.state, state_named(row[8])) << row[2] << " " << row[0];
    for (const auto& [column, event] : {std::pair{3U, Event::rise}, std::pair{4U, Event::set},
                                        std::pair{5U, Event::dawn}, std::pair{6U, Event::dusk}}) {
      if (!row[column].empty())
        checked.add(missed_s(at, instant(row[column]), event), row[2] + " " + row[0]);
    }
    ++rows;
  }
  EXPECT_EQ(rows, 19);
  EXPECT_EQ(checked.events, 62);
  EXPECT_LE(checked.worst_s, 8) << checked.where;
}

TEST(Sun, RefusesWhatIsNoPlaceOrDay) {
  EXPECT_FALSE(sun_day({91, 0}, std::chrono::year{2026} / 6 / 21, "UTC"));
  EXPECT_FALSE(sun_day({std::nan(""), 0}, std::chrono::year{2026} / 6 / 21, "UTC"));
  EXPECT_FALSE(sun_day({50, 0}, std::chrono::year{2026} / 2 / 30, "UTC"));
  EXPECT_FALSE(sun_day({50, 0}, std::chrono::year{2026} / 6 / 21, "Mars/Base"));
}

// On the last days before the midnight sun a day may have a sunrise and no sunset: it says which.
TEST(Sun, ADayWithOnlyOneOfThem) {
  const Geographic at{69.65, 18.96};
  bool met = false;
  for (int k = 0; k < 30; ++k) {
    const auto day = sun_day(at, std::chrono::sys_days{std::chrono::year{2026} / 5 / 10} + days{k},
                             "Europe/Oslo");
    ASSERT_TRUE(day);
    const auto words = state_words(*day);
    if (day->sun.up && !day->sun.down) {
      met = true;
      EXPECT_EQ(day->sun.state, SunState::crosses);
      EXPECT_NE(words.find("no sunset"), std::string::npos) << words;
    }
    EXPECT_EQ(words.empty(), day->sun.up && day->sun.down && day->civil.up && day->civil.down)
        << words;
  }
  EXPECT_TRUE(met);
}

// The order of a day, wherever the clock puts its midnight: half a year at places from the equator
// to beyond the polar circle, in zones of whole, half and quarter hours, with changes either way.
TEST(Sun, ADaysEventsBelongToOneDayOfTheSun) {
  struct Place {
    Geographic at;
    const char* zone;
  };
  int after_midnight = 0, days_asked = 0;
  for (const Place& place :
       {Place{{60.4, 5.3}, "Europe/Oslo"}, Place{{62.5, 25.7}, "Europe/Helsinki"},
        Place{{65.6, -17.0}, "Atlantic/Reykjavik"}, Place{{69.65, 18.96}, "Europe/Oslo"},
        Place{{54.6, -9.3}, "Europe/Dublin"}, Place{{47.5, -52.8}, "America/St_Johns"},
        Place{{27.7, 85.3}, "Asia/Kathmandu"}, Place{{-31.5, 159.1}, "Australia/Lord_Howe"},
        Place{{-44.0, 170.1}, "Pacific/Auckland"}, Place{{64.8, -147.7}, "America/Anchorage"},
        Place{{0.3, 32.6}, "Africa/Kampala"}}) {
    for (int k = 0; k < 365; k += 2, ++days_asked) {
      const auto date = sys_days{std::chrono::year{2026} / 1 / 1} + days{k};
      const auto day = sun_day(place.at, date, place.zone);
      ASSERT_TRUE(day);
      UtcSeconds last = day->noon - std::chrono::hours{13};
      for (const auto& event :
           {day->civil.up, day->sun.up, std::optional{day->noon}, day->sun.down, day->civil.down}) {
        if (!event) continue;
        EXPECT_GT(*event, last) << place.zone << " day " << k;
        last = *event;
      }
      EXPECT_LT(last, day->noon + std::chrono::hours{13});
      const auto local = [&](UtcSeconds t) { return t + *utc_offset(place.zone, t); };
      EXPECT_EQ(std::chrono::floor<days>(local(day->noon)), date) << place.zone;
      if (day->civil.down && std::chrono::floor<days>(local(*day->civil.down)) > date)
        ++after_midnight;
    }
  }
  EXPECT_EQ(days_asked, 11 * 183);
  EXPECT_GT(after_midnight, 20);
}

// Bergen in July: last light of the 1st is at about one o'clock on the 2nd, not on the 1st. The
// published tables have it within a minute (US Naval Observatory's method, checked above).
TEST(Sun, DuskMayBeAfterMidnight) {
  const auto day = sun_day({60.4, 5.3}, std::chrono::year{2026} / 7 / 1, "Europe/Oslo");
  ASSERT_TRUE(day && day->civil.down && day->civil.up);
  EXPECT_GT(*day->civil.down, instant(2026, 7, 1, 22, 30));
  EXPECT_LT(*day->civil.down, instant(2026, 7, 1, 23, 30));
  EXPECT_LT(*day->civil.up, instant(2026, 7, 1, 1, 30));
  EXPECT_TRUE(state_words(*day).empty());
}

// Clocks there go back at 01:00 UTC on 2026-10-25 and forward on 2026-03-29 (directive 2000/84/EC).
// Sunset by the US Naval Observatory's formula is at 17:16 by the changed clock; an hour later by
// the clock of the morning.
TEST(TimeZone, EachEventHasItsOwnOffset) {
  const auto text = [](Geographic at, int month, int day_of, const char* zone) {
    const auto day = sun_day(at, std::chrono::year{2026} / month / day_of, zone);
    EXPECT_TRUE(day && day->sun.down);
    return iso_text(*day->sun.down, *utc_offset(zone, *day->sun.down)).substr(11, 5) + " " +
           iso_text(*day->sun.down, *utc_offset(zone, *day->sun.down)).substr(19);
  };
  EXPECT_EQ(text({54.6, -9.3}, 10, 25, "Europe/Dublin").substr(6), "+00:00");
  EXPECT_EQ(text({54.6, -9.3}, 10, 24, "Europe/Dublin").substr(6), "+01:00");
  EXPECT_EQ(text({54.6, -9.3}, 3, 29, "Europe/Dublin").substr(6), "+01:00");
  EXPECT_EQ(text({47.5, -52.8}, 3, 8, "America/St_Johns").substr(6), "-02:30");
  EXPECT_EQ(text({-31.5, 159.1}, 4, 5, "Australia/Lord_Howe").substr(6), "+10:30");
}

TEST(TimeZone, ChangesOfTheClock) {
  const auto change = [](const char* zone, UtcSeconds from, UtcSeconds to) {
    return clock_change(zone, from, to).value();
  };
  const auto back =
      change("Europe/Dublin", instant(2026, 10, 24, 21, 0), instant(2026, 10, 25, 6, 0));
  ASSERT_TRUE(back);
  EXPECT_EQ(back->at, instant(2026, 10, 25, 1, 0));
  EXPECT_EQ(back->forward, std::chrono::minutes{-60});
  // Half an hour, on Lord Howe Island: forward on the first Sunday of October at 2:00 (15:30 UTC).
  const auto half =
      change("Australia/Lord_Howe", instant(2026, 10, 3, 0, 0), instant(2026, 10, 4, 0, 0));
  ASSERT_TRUE(half);
  EXPECT_EQ(half->at, instant(2026, 10, 3, 15, 30));
  EXPECT_EQ(half->forward, std::chrono::minutes{30});
  EXPECT_FALSE(change("Asia/Kathmandu", instant(2026, 1, 1, 0, 0), instant(2026, 12, 31, 0, 0)));
  EXPECT_FALSE(change("UTC", instant(2026, 1, 1, 0, 0), instant(2026, 12, 31, 0, 0)));
  EXPECT_FALSE(
      clock_change("Europe/Nowhere", instant(2026, 1, 1, 0, 0), instant(2026, 2, 1, 0, 0)));
}

// By hand: 9.3 W is 37 min behind Greenwich, whose clock Dublin's is without summer time.
TEST(TimeZone, AheadOfTheSun) {
  EXPECT_EQ(*ahead_of_sun({54.6, -9.3}, instant(2026, 7, 1, 12, 0), "Europe/Dublin"),
            std::chrono::minutes{37});
  EXPECT_EQ(*ahead_of_sun({54.6, -9.3}, instant(2026, 11, 14, 12, 0), "Europe/Dublin"),
            std::chrono::minutes{37});
  EXPECT_EQ(*ahead_of_sun({40, -105}, instant(2026, 1, 1, 12, 0), "UTC"), std::chrono::hours{7});
}

TEST(TimeZone, OffsetsAndRefusals) {
  EXPECT_EQ(*utc_offset("Europe/Oslo", instant(2026, 7, 1, 12, 0)), seconds{7200});
  EXPECT_EQ(*utc_offset("Europe/Oslo", instant(2026, 1, 1, 12, 0)), seconds{3600});
  for (const char* name : {"Europe/Nowhere", "", "../../etc/passwd", "/etc/passwd"}) {
    const auto offset = utc_offset(name, instant(2026, 1, 1, 12, 0));
    ASSERT_FALSE(offset) << name;
    EXPECT_EQ(offset.error().code, FaultCode::bad_input);
  }
  EXPECT_EQ(iso_text(instant(2026, 7, 1, 22, 30, 5), seconds{7200}), "2026-07-02T00:30:05+02:00");
  EXPECT_EQ(iso_text(instant(2026, 7, 1, 1, 0), seconds{-12600}), "2026-06-30T21:30:00-03:30");
  EXPECT_EQ(*to_utc("Europe/Oslo", std::chrono::year{2026} / 7 / 1, std::chrono::minutes{60}),
            instant(2026, 6, 30, 23, 0));
}

// Clocks in Oslo go from 2:00 to 3:00 on 2026-03-29 and from 3:00 to 2:00 on 2026-10-25 (EU
// directive 2000/84/EC: last Sundays, 01:00 UTC). Both half past two are read with the offset
// before the change.
TEST(TimeZone, TimesThatAChangeSkipsOrRepeats) {
  const std::chrono::minutes half_past_two{150};
  EXPECT_EQ(*to_utc("Europe/Oslo", std::chrono::year{2026} / 3 / 29, half_past_two),
            instant(2026, 3, 29, 1, 30));
  EXPECT_EQ(*to_utc("Europe/Oslo", std::chrono::year{2026} / 10 / 25, half_past_two),
            instant(2026, 10, 25, 0, 30));
}

}  // namespace
}  // namespace lodeway::earth
