#include "lodeway/trip/figure_text.hpp"

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

TEST(FigureText, DatesByLanguage) {
  // 14 November 2026 is a Saturday (any calendar).
  const auto day = std::chrono::year{2026} / 11 / 14;
  EXPECT_EQ(date_text(day, Language::english), "Sat 14 Nov 2026");
  EXPECT_EQ(date_text(day, Language::german), "Sa., 14. Nov. 2026");
}

// Where the equator crosses the middle of zone 30, 3 degrees west: easting 500 000, northing 0. By
// NGA.STND.0037: band N, and of set 6 the column W (500 km) and the row F (0).
TEST(FigureText, WhatRescuersAskFor) {
  const auto grid = earth::MapGrid::utm_at({0.5, -3});
  ASSERT_TRUE(grid);
  EXPECT_EQ(full_reference(*grid, {500000, 0.5}), "30NWF 0000 0000, 0.0000 N 3.0000 W");
  // 1 km on: 1000 / (0.9996 x 110 574 m) of a degree.
  EXPECT_EQ(full_reference(*grid, {500000, 1000}), "30NWF 0000 0100, 0.0090 N 3.0000 W");
}

TEST(FigureText, AnglesLengthsAndNumbers) {
  EXPECT_EQ(angle_text(-2.34, AngleUnit::degrees, Language::english), "2.3° W");
  EXPECT_EQ(angle_text(2.34, AngleUnit::degrees, Language::german), "2,3° O");
  EXPECT_EQ(angle_text(-2.34, AngleUnit::mils, Language::english),
            "42 mil W");  // 2.34 x 6400 / 360
  EXPECT_EQ(bearing_text(units::MagneticBearing::degrees(359.6), AngleUnit::degrees), "000");
  EXPECT_EQ(bearing_text(units::MagneticBearing::degrees(44), AngleUnit::mils), "0782");
  EXPECT_EQ(thousands(6050000), "6 050 000");
  EXPECT_EQ(thousands(500), "500");
  EXPECT_EQ(hours_text(116), "1 h 56");
  EXPECT_EQ(hours_text(11.4), "11 min");
  EXPECT_EQ(hours_text(60), "1 h 00");
  EXPECT_EQ(length_text(1018, LengthUnit::imperial), "0.6 mi");
  EXPECT_EQ(size_text(2.34, AngleUnit::degrees, Language::german), "2,3°");
  EXPECT_EQ(decimal_text(62.5, 1, Language::german), "62,5");
  EXPECT_EQ(decimal_text(62.5, 1, Language::english), "62.5");
}

}  // namespace
}  // namespace lodeway::trip
