#include "lodeway/units/text.hpp"

#include <gtest/gtest.h>

namespace lodeway::units {
namespace {

constexpr TextStyle mils{true, false}, imperial{false, true};

TEST(Text, Angles) {
  EXPECT_EQ(angle_text(Angle::degrees(4.119)), "4.1°");
  EXPECT_EQ(angle_text(Angle::degrees(-4.119)), "-4.1°");
  EXPECT_EQ(angle_text(Angle::degrees(-0.04)), "0.0°");
  EXPECT_EQ(angle_text(Angle::degrees(90), mils), "1600 mil");
  EXPECT_EQ(angle_east_text(Angle::degrees(-0.86)), "0.9° W");
  EXPECT_EQ(angle_east_text(Angle::degrees(24.266)), "24.3° E");
  EXPECT_EQ(angle_east_text(Angle::degrees(-0.01)), "0.0°");
}

TEST(Text, BearingsHaveThreeFiguresAndNever360) {
  EXPECT_EQ(bearing_text(GridBearing::degrees(4.2)), "004.2°");
  EXPECT_EQ(bearing_text(MagneticBearing::degrees(86.26)), "086.3°");
  EXPECT_EQ(bearing_text(359.96), "000.0°");
  EXPECT_EQ(bearing_text(359.6, {}, 0), "000°");
  EXPECT_EQ(bearing_text(7.4, {}, 0), "007°");
  EXPECT_EQ(bearing_text(4.5, mils), "0080 mil");
  EXPECT_EQ(bearing_text(359.99, mils), "0000 mil");
}

TEST(Text, Lengths) {
  EXPECT_EQ(length_text(1018.4), "1018 m");
  EXPECT_EQ(length_text(12345), "12.35 km");
  EXPECT_EQ(length_text(304.8, imperial), "1000 ft");    // a foot is 0.3048 m, exact
  EXPECT_EQ(length_text(1609.344, imperial), "1.0 mi");  // a mile is 5280 feet
  EXPECT_EQ(height_text(1344), "1344 m");
  EXPECT_EQ(height_text(1344.168, imperial), "4410 ft");
}

// Rounded down, for a certainty that is not there must not be read; whole hundredths stay, though
// 0.29 and 0.58 are kept as doubles just below.
TEST(Text, OfHundredIsNeverRoundedUp) {
  EXPECT_EQ(of_hundred(0.949), "94");
  EXPECT_EQ(of_hundred(0.9999), "99");
  EXPECT_EQ(of_hundred(1), "100");
  EXPECT_EQ(of_hundred(0.004), "0");
  for (int k = 0; k <= 100; ++k) EXPECT_EQ(hundredths(k / 100.0), k);
}

// By definition of scale: the table of common ones.
TEST(MapAndGround, OneMillimetreOneKilometre) {
  struct Row {
    double scale, mm_m, km_mm;
  };
  for (const Row& r : {Row{24000, 24, 41.6667}, Row{25000, 25, 40}, Row{40000, 40, 25},
                       Row{50000, 50, 20}, Row{63360, 63.36, 15.7828}, Row{100000, 100, 10}}) {
    EXPECT_NEAR(map_mm(r.mm_m, r.scale), 1, 1e-12);
    EXPECT_NEAR(map_mm(1000, r.scale), r.km_mm, 5e-5);
  }
}

// Arithmetic of the trade: a stride of 0.8 m makes 62.5 double paces in 100 m and 625 in a
// kilometre; counted as 620 it ends at 992 m, 8 m short.
TEST(MapAndGround, DoublePaces) {
  EXPECT_NEAR(double_paces(100, 0.8), 62.5, 1e-12);
  const auto k = counted_kilometre(0.8);
  EXPECT_NEAR(k.exact, 625, 1e-9);
  EXPECT_EQ(k.counted, 620);
  EXPECT_NEAR(k.short_m, 8, 1e-9);
  EXPECT_NEAR(counted_kilometre(1.0).short_m, 0, 1e-9);  // 500: nothing is lost
}

}  // namespace
}  // namespace lodeway::units
