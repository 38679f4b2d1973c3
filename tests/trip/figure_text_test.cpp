#include "lodeway/trip/figure_text.hpp"

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

TEST(FigureText, DatesByLanguage) {
  // 14 November 2026 is a Saturday (any calendar).
  const auto day = std::chrono::year{2026} / 11 / 14;
  EXPECT_EQ(date_text(day, Language::english), "Sat 14 Nov 2026");
  EXPECT_EQ(date_text(day, Language::german), "Sa 14. Nov. 2026");
}

TEST(FigureText, AnglesLengthsAndNumbers) {
  EXPECT_EQ(angle_text(-2.34, AngleUnit::degrees, Language::english), "2.3° W");
  EXPECT_EQ(angle_text(2.34, AngleUnit::degrees, Language::german), "2.3° O");
  EXPECT_EQ(angle_text(-2.34, AngleUnit::mils, Language::english),
            "42 mil W");  // 2.34 x 6400 / 360
  EXPECT_EQ(bearing_text(units::MagneticBearing::degrees(359.6), AngleUnit::degrees), "000");
  EXPECT_EQ(bearing_text(units::MagneticBearing::degrees(44), AngleUnit::mils), "0782");
  EXPECT_EQ(thousands(6050000), "6 050 000");
  EXPECT_EQ(thousands(500), "500");
  EXPECT_EQ(hours_text(116), "1 h 56");
  EXPECT_EQ(length_text(1018, LengthUnit::imperial), "0.6 mi");
}

}  // namespace
}  // namespace lodeway::trip
