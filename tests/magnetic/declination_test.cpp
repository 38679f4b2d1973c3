#include "lodeway/magnetic/declination.hpp"

#include <cmath>
#include <cstring>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"
#include "support/support.hpp"

extern "C" {
extern const unsigned char lodeway_wmm2025_cof[];
extern const unsigned lodeway_wmm2025_cof_size;
}

namespace lodeway::magnetic {
namespace {

// The program carries the published file: its bytes, unchanged. (Its SHA-256 is the ctest
// `coefficients_unchanged`.)
TEST(Declination, CoefficientsAreCarriedByteForByte) {
  const auto published =
      support::read_text(lodeway::support::tests_folder() + "/../data/magnetic/WMM2025.COF");
  ASSERT_EQ(published.size(), 4557U);
  ASSERT_EQ(lodeway_wmm2025_cof_size, published.size());
  EXPECT_EQ(std::memcmp(lodeway_wmm2025_cof, published.data(), published.size()), 0);
}

// Another program with the same coefficients; figures as printed there.
TEST(Declination, PlacesOfAnotherProgram) {
  const auto rows = support::read_table("wmm2025/places.csv");
  ASSERT_EQ(rows.size(), 13U);
  for (const auto& r : rows) {
    const auto f = field_at({r[0], r[1]}, 0, r[2]);
    ASSERT_TRUE(f);
    EXPECT_NEAR(f->declination.east.in_degrees(), r[3], 0.00051);
    // That program's yearly change is the difference to the year after, not the slope on the day:
    // at 86 N 7.48 against 11.21 degrees. The slope is tested against the official rows.
    const auto next = field_at({r[0], r[1]}, 0, r[2] + 1);
    EXPECT_NEAR((next->declination.east - f->declination.east).in_degrees(), r[4], 0.00051);
    EXPECT_NEAR(f->horizontal_nT, r[5], 0.51);
    EXPECT_NEAR(f->inclination_deg, r[6], 0.0051);
    EXPECT_NEAR(f->total_nT, r[7], 0.51);
    EXPECT_NEAR(f->declination_sigma_deg, r[8], r[8] > 10 ? 0.051 : 0.0051);
  }
}

// Law: the change per year is the slope of the declination over time, to its second order.
TEST(Declination, YearlyChangeIsTheSlope) {
  numeric::Random random(2026);
  for (int i = 0; i < 200; ++i) {
    const earth::Geographic at{-70 + 140 * random.uniform(), -180 + 360 * random.uniform()};
    const double year = 2025.1 + 4.8 * random.uniform(), step = 0.01;
    const auto before = field_at(at, 500, year - step), after = field_at(at, 500, year + step);
    const auto now = field_at(at, 500, year);
    if (now->zone != Zone::normal) continue;  // near the poles the second order is not small
    const double slope =
        std::remainder(after->declination.east.in_degrees() - before->declination.east.in_degrees(),
                       360.0) /
        (2 * step);
    EXPECT_NEAR(slope, now->annual_change_deg, 1e-5) << at.lat_deg << " " << at.lon_deg;
  }
}

// A day and its decimal year: 2026-07-02 is day 183 of 365.
TEST(Declination, DayOfTheYear) {
  const auto by_day = field_at({50, 10}, 0, std::chrono::year{2026} / 7 / 2);
  const auto by_year = field_at({50, 10}, 0, 2026 + 182.0 / 365);
  EXPECT_NEAR(by_day->declination.east.in_degrees(), by_year->declination.east.in_degrees(), 1e-12);
}

// NOAA/NCEI and BGS, WMM2025 test values, 100 rows: angles to 0.01 degrees, fields and changes to
// 1e-6. Its X, H and F carry up to 7e-4 nT of their own: npm geomagnetism 0.2.0 differs by as much.
TEST(Declination, OfficialHundredRows) {
  const auto rows = support::read_table("wmm2025/WMM2025_TestValues.txt");
  ASSERT_EQ(rows.size(), 100U);
  for (const auto& r : rows) {
    const auto f = field_at({r[2], r[3]}, r[1] * 1000, r[0]);
    ASSERT_TRUE(f) << f.error().what;
    EXPECT_NEAR(f->declination.east.in_degrees(), r[4], 0.00501);
    EXPECT_NEAR(f->inclination_deg, r[5], 0.00501);
    EXPECT_NEAR(f->horizontal_nT, r[6], 0.0008);
    EXPECT_NEAR(f->north_nT, r[7], 0.0008);
    EXPECT_NEAR(f->east_nT, r[8], 6e-7);
    EXPECT_NEAR(f->down_nT, r[9], 3e-6);
    EXPECT_NEAR(f->total_nT, r[10], 0.0005);
    EXPECT_NEAR(f->annual_change_deg, r[11], 6e-7);
  }
}

// The table of the WMM2025 report: fields to 0.1 nT, angles to 0.01 degrees.
TEST(Declination, ReportTable) {
  const auto rows = support::read_table("wmm2025/WMM2025_test_value_table_for_report.txt");
  ASSERT_EQ(rows.size(), 12U);
  for (const auto& r : rows) {
    const auto f = field_at({r[2], r[3]}, r[1] * 1000, r[0]);
    ASSERT_TRUE(f);
    EXPECT_NEAR(f->north_nT, r[4], 0.0501);
    EXPECT_NEAR(f->east_nT, r[5], 0.0501);
    EXPECT_NEAR(f->down_nT, r[6], 0.0501);
    EXPECT_NEAR(f->horizontal_nT, r[7], 0.0501);
    EXPECT_NEAR(f->total_nT, r[8], 0.0501);
    EXPECT_NEAR(f->inclination_deg, r[9], 0.00501);
    EXPECT_NEAR(f->declination.east.in_degrees(), r[10], 0.00501);
  }
}

// sigma = sqrt(0.26^2 + (5417/H)^2): error model of the WMM2025 report, section 3.4.
TEST(Declination, SigmaAndZones) {
  const auto normal = field_at({46.5775, 8.0059}, 0, 2026.0);
  EXPECT_NEAR(normal->declination_sigma_deg, std::hypot(0.26, 5417 / normal->horizontal_nT), 1e-12);
  EXPECT_EQ(normal->zone, Zone::normal);
  EXPECT_EQ(field_at({82.5, -62.3}, 0, 2026.0)->zone, Zone::caution);
  const auto black = field_at({86, 142}, 0, 2026.0);
  EXPECT_EQ(black->zone, Zone::blackout);
  EXPECT_NEAR(black->declination_sigma_deg, 44.8, 0.05);  // npm geomagnetism 0.2.0 and the formula
}

TEST(Declination, RefusesWhatTheModelDoesNotCover) {
  using std::chrono::year;
  EXPECT_FALSE(field_at({50, 0}, 0, year{1999} / 1 / 1));
  EXPECT_FALSE(field_at({50, 0}, 0, year{2031} / 1 / 1));
  EXPECT_FALSE(field_at({50, 0}, 0, year{2030} / 1 / 1));
  EXPECT_TRUE(field_at({50, 0}, 0, year{2029} / 12 / 31));
  EXPECT_FALSE(field_at({50, 0}, 0, year{2026} / 2 / 30));
  EXPECT_FALSE(field_at({91, 0}, 0, 2026.0));
  EXPECT_FALSE(field_at({std::nan(""), 0}, 0, 2026.0));
  EXPECT_FALSE(field_at({50, 0}, 900e3, 2026.0));
}

}  // namespace
}  // namespace lodeway::magnetic
