#include "lodeway/earth/sun.hpp"

#include <cstdio>

#include <gtest/gtest.h>

#include "support/support.hpp"

namespace lodeway::earth {
namespace {

using std::chrono::seconds;

UtcSeconds instant(int y, unsigned m, unsigned d, int hour, int minute, int second = 0) {
  return std::chrono::sys_days{std::chrono::year{y} / m / d} + std::chrono::hours{hour} +
         std::chrono::minutes{minute} + seconds{second};
}

// US Naval Observatory tables, whole minutes of UT. Each printed time must be met within its
// rounding (30 s) and the formulas' own error (NOAA: one minute within 72 degrees).
void check_usno(const char* file, double height, int& checked) {
  for (const auto& row : support::read_csv(file)) {
    int y = 0;
    unsigned m = 0, d = 0;
    ASSERT_EQ(std::sscanf(row[0].c_str(), "%d-%u-%u", &y, &m, &d), 3);
    const Geographic at{std::stod(row[1]), std::stod(row[2])};
    for (const std::size_t k : {4U, 5U}) {
      if (row.size() <= k || row[k].empty()) continue;
      int hour = 0, minute = 0;
      ASSERT_EQ(std::sscanf(row[k].c_str(), "%d:%d", &hour, &minute), 2);
      // The sun stands at the height at the printed minute, within its rounding and one minute.
      const bool up = k == 4;
      double nearest = 1e9;
      for (int day = -1; day <= 1; ++day) {
        const auto t = instant(y, m, d, hour, minute) + std::chrono::days{day};
        for (int s = -90; s <= 90; s += 2) {
          const bool crosses = (sun_height_deg(at, t + seconds{s}) < height) == up &&
                               (sun_height_deg(at, t + seconds{s + 2}) >= height) == up;
          if (crosses) nearest = std::min(nearest, std::abs(static_cast<double>(s)));
        }
      }
      EXPECT_LE(nearest, 36) << row[0] << " " << row[1] << " " << row[2] << " " << row[k];
      ++checked;
    }
  }
}

TEST(Sun, NavalObservatoryRiseAndSet) {
  int checked = 0;
  check_usno("sun/usno_reference_testdata.csv", sunrise_height_deg, checked);
  EXPECT_GT(checked, 250);
}

TEST(Sun, NavalObservatoryCivilTwilight) {
  int checked = 0;
  check_usno("sun/usno_reference_testdata_civil.csv", civil_height_deg, checked);
  EXPECT_GT(checked, 250);
}

// PyEphem 4.1.4 (centre at -0.8333 and -6 degrees, no pressure), seconds of UTC; the formulas are
// good to 15 s there.
TEST(Sun, EphemTable) {
  const auto day = sun_day({46.5775, 8.0059}, std::chrono::year{2026} / 12 / 21, "UTC");
  ASSERT_TRUE(day);
  EXPECT_LE(std::abs((*day->sun.up - instant(2026, 12, 21, 7, 9, 6)).count()), 15);
  EXPECT_LE(std::abs((*day->sun.down - instant(2026, 12, 21, 15, 42, 58)).count()), 15);
  EXPECT_LE(std::abs((*day->civil.up - instant(2026, 12, 21, 6, 33, 56)).count()), 15);
  EXPECT_LE(std::abs((*day->civil.down - instant(2026, 12, 21, 16, 18, 8)).count()), 15);
}

TEST(Sun, PolarDayAndNight) {
  const auto summer = sun_day({69.65, 18.96}, std::chrono::year{2026} / 6 / 21, "Europe/Oslo");
  EXPECT_EQ(summer->sun.state, SunState::always_above);
  EXPECT_FALSE(summer->sun.up || summer->sun.down);
  const auto winter = sun_day({69.65, 18.96}, std::chrono::year{2026} / 12 / 21, "Europe/Oslo");
  EXPECT_EQ(winter->sun.state, SunState::always_below);
  // PyEphem: civil twilight 08:31:15 to 12:53:08 UTC that day.
  EXPECT_LE(std::abs((*winter->civil.up - instant(2026, 12, 21, 8, 31, 15)).count()), 30);
  EXPECT_LE(std::abs((*winter->civil.down - instant(2026, 12, 21, 12, 53, 8)).count()), 30);
}

TEST(TimeZone, OffsetsAndRefusals) {
  EXPECT_EQ(*utc_offset("Europe/Oslo", instant(2026, 7, 1, 12, 0)), seconds{7200});
  EXPECT_EQ(*utc_offset("Europe/Oslo", instant(2026, 1, 1, 12, 0)), seconds{3600});
  EXPECT_FALSE(utc_offset("Europe/Nowhere", instant(2026, 1, 1, 12, 0)));
  EXPECT_EQ(iso_text(instant(2026, 7, 1, 22, 30, 5), seconds{7200}), "2026-07-02T00:30:05+02:00");
  EXPECT_EQ(iso_text(instant(2026, 7, 1, 1, 0), seconds{-12600}), "2026-06-30T21:30:00-03:30");
  EXPECT_EQ(*to_utc("Europe/Oslo", std::chrono::year{2026} / 7 / 1, std::chrono::minutes{60}),
            instant(2026, 6, 30, 23, 0));
}

}  // namespace
}  // namespace lodeway::earth
