#include "lodeway/earth/place_text.hpp"

#include "lodeway/earth/apart_references.hpp"

#include <gtest/gtest.h>

#include "lodeway/earth/geodesic.hpp"
#include "support/support.hpp"

namespace lodeway::earth {
namespace {

// GeographicLib 2.1.2: `GeoConvert -u -p 3`, `-m -p 0`, `-c -p 6`; PROJ 9.1.1 agrees with all of
// UTM.
struct Row {
  double lat, lon;
  int zone;  ///< 0: UPS
  bool north;
  double east, northing;
  const char* mgrs_1m;
  double convergence, scale;
};
constexpr double unknown = -1000;
constexpr Row rows[] = {
    {51.4778, -0.0015, 30, true, 708213.951, 5707224.543, "30UYC0821307224", 2.346765, 1.0001323},
    {53.0685, -4.0763, 30, true, 427884.653, 5880432.096, "30UVD2788480432", -0.860382, 0.9996638},
    {46.5775, 8.0059, 32, true, 423829.485, 5158694.918, "32TMS2382958694", -0.722054, 0.9996713},
    {40.0, -105.25, 13, true, 478660.063, 4427787.145, "13TDE7866027787", -0.160698, 0.9996056},
    {37.7456, -119.5936, 11, true, 271484.729, 4180756.776, "11SKB7148480756", -1.588376,
     1.0002432},
    {-43.5950, 170.1418, 59, false, 430728.143, 5172750.267, "59GMM3072872750", 0.591801, 0.999659},
    {0, 0, 31, true, 166021.443, 0.000, "31NAA6602100000", 0.0, 1.0009811},
    {-0.000001, 0, 31, false, 166021.443, 9999999.889, "31MAV6602199999", 1e-07, 1.0009811},
    {0, 180, 1, true, 166021.443, 0.000, "01NAA6602100000", 0.0, 1.0009811},
    {0, 179.999999, 60, true, 833978.445, 0.000, "60NZF3397800000", 0.0, 1.0009811},
    {60.3913, 5.3221, 32, true, 297353.933, 6700648.345, "32VKN9735300648", -3.198717, unknown},
    {60.0, 2.999999, 31, true, 499999.944, 6651411.190, "31VDG9999951411", -8.6603e-7, unknown},
    {60.0, 3.0, 32, true, 165640.332, 6666593.572, "32VJM6564066593", -5.200922, unknown},
    {60.0, 11.999999, 32, true, 667294.765, 6655205.481, "32VPM6729455205", 2.598672, unknown},
    {55.999999, 5.0, 31, true, 624726.155, 6207884.492, "31UFC2472607884", 1.658287, unknown},
    {64.0, 5.0, 31, true, 597812.110, 7098548.749, "31WEL9781298548", 1.797729, unknown},
    {78.2232, 15.6267, 33, true, 514278.715, 8683355.469, "33XWG1427883355", 0.613509, unknown},
    {78, 8.999999, 31, true, 639026.373, 8665496.993, "31XFG3902665496", 5.869811, unknown},
    {78, 9.0, 33, true, 360973.604, 8665496.996, "33XUG6097365496", -5.869812, unknown},
    {78, 20.999999, 33, true, 639026.373, 8665496.993, "33XXG3902665496", 5.869811, unknown},
    {78, 21.0, 35, true, 360973.604, 8665496.996, "35XLG6097365496", -5.869812, unknown},
    {78, 33.0, 37, true, 360973.604, 8665496.996, "37XCG6097365496", -5.869812, unknown},
    {71.999999, 10, 32, true, 534489.020, 7989218.643, "32WNE3448989218", 0.951066, unknown},
    {83.999999, 0, 31, true, 465005.339, 9329005.071, "31XDP6500529005", unknown, 0.999615},
    {84, 0, 0, true, 2000000.000, 1333272.296, "ZAA0000033272", unknown, 0.99673},
    {84, -0.000001, 0, true, 1999999.988, 1333272.296, "YZA9999933272", unknown, 0.99673},
    {90, 0, 0, true, 2000000, 2000000, "ZAH0000000000", unknown, 0.994},
    {-80, 0, 31, false, 441867.785, 1116915.044, "31CDM4186716915", unknown, 0.9996413},
    {-80.000001, 0, 0, false, 2000000.000, 3112951.025, "BAZ0000012951", unknown, 1.0016076},
    {-90, 0, 0, false, 2000000, 2000000, "BAN0000000000", unknown, 0.994},
};

// Zone with the exceptions of Norway and Svalbard, both poles, both sides of each edge.
TEST(Places, UtmAndUps) {
  for (const auto& r : rows) {
    const auto u = utm_ups({r.lat, r.lon});
    ASSERT_TRUE(u);
    EXPECT_EQ(u->zone, r.zone) << r.mgrs_1m;
    EXPECT_EQ(u->north, r.north) << r.mgrs_1m;
    EXPECT_NEAR(u->east_m, r.east, 0.00051) << r.mgrs_1m;
    EXPECT_NEAR(u->north_m, r.northing, 0.00051) << r.mgrs_1m;
    if (r.convergence != unknown) {
      EXPECT_NEAR(u->convergence.east.in_degrees(), r.convergence, 6e-7) << r.mgrs_1m;
    }
    if (r.scale != unknown) {
      EXPECT_NEAR(u->scale, r.scale, 6e-8) << r.mgrs_1m;
    }
  }
}

TEST(Places, MgrsOut) {
  for (const auto& r : rows) {
    const std::string full = r.mgrs_1m;
    EXPECT_EQ(*mgrs({r.lat, r.lon}), full);
    // Truncated, never rounded: a coarser reference is the same digits cut short.
    const auto letters = full.size() - 10;
    EXPECT_EQ(*mgrs({r.lat, r.lon}, 3),
              full.substr(0, letters) + full.substr(letters, 3) + full.substr(letters + 5, 3));
  }
  EXPECT_EQ(*mgrs({53.0685, -4.0763}, 3), "30UVD278804");  // GeoConvert -m -p -2
  EXPECT_EQ(*mgrs({-0.000001, 0}, 3), "31MAV660999");
}

TEST(Places, MgrsInIsTheSquareThatHoldsThePlace) {
  for (const auto& r : rows) {
    const auto square = parse_mgrs(r.mgrs_1m);
    ASSERT_TRUE(square) << r.mgrs_1m;
    EXPECT_EQ(square->side_m, 1);
    EXPECT_EQ(square->zone, r.zone) << r.mgrs_1m;
    EXPECT_GE(r.east - square->south_west.east_m, -0.00051) << r.mgrs_1m;
    EXPECT_LE(r.east - square->south_west.east_m, 1.00051) << r.mgrs_1m;
    EXPECT_LE(geodesic({r.lat, r.lon}, square->centre).distance_m, 0.72) << r.mgrs_1m;
  }
  const auto square = parse_mgrs("30u vd 123 678");
  EXPECT_EQ(square->south_west, (GridPoint{412300, 5867800}));
  EXPECT_EQ(square->side_m, 100);
  for (const char* text : {"30U", "30UVD1", "30UVD 123456 123456", "30IVD 1 1", "00UVD 1 1"}) {
    EXPECT_FALSE(parse_mgrs(text)) << text;
  }
}

TEST(Places, MgrsInMeansTheCentre) {
  // GeoConvert: 30UVD1234567890 has its south-west corner at 30n 412345 5867890; its centre is
  // 52.9534644768 -4.3047529063; 30UVD alone is centred on 450000 5850000.
  const auto small = parse_place("30UVD 12345 67890");
  EXPECT_NEAR(small->lat_deg, 52.9534644768, 5e-11);
  EXPECT_NEAR(small->lon_deg, -4.3047529063, 5e-11);
  const auto large = parse_place("30UVD");
  EXPECT_NEAR(large->lat_deg, 52.7974802766, 5e-11);
  EXPECT_NEAR(large->lon_deg, -3.7415815761, 5e-11);
}

TEST(Places, TheSamePlaceInEveryForm) {
  const auto grid = MapGrid::from_text("EPSG:32630");
  for (const char* text :
       {"53.0685 -4.0763", "53.0685, -4.0763", "53.0685N 4.0763W", "4.0763W, 53.0685N",
        "53 04.11N 4 04.578W", "53°04'06.6\"N 4°04'34.68\"W", "+53.0685 -4.0763",
        "N53.0685 W4.0763", "53.0685 \u22124.0763",
        "53\u00b0 04\u2032 06.6\u2033 \u20134\u00b0 04\u2032 34.68\u2033",
        "53 04 06.6, -4 04 34.68", "53 04.11 -4 04.578", "30N 427884.653 5880432.096",
        "427884.653 5880432.096"}) {
    const auto at = parse_place(text, &*grid);
    ASSERT_TRUE(at) << text << ": " << at.error().what;
    EXPECT_NEAR(at->lat_deg, 53.0685, 1e-8) << text;
    EXPECT_NEAR(at->lon_deg, -4.0763, 1e-8) << text;
  }
}

// GeographicLib reads "INV" as the mark of a place that is none and answers with no number.
TEST(Places, InvalidIsNoReference) {
  for (const char* text : {"inv", "INV", "INVALID", "invOK"}) {
    EXPECT_FALSE(parse_mgrs(text)) << text;
    EXPECT_FALSE(parse_place(text, nullptr)) << text;
  }
}

TEST(Places, RefusedInOneLine) {
  for (const char* text : {"",
                           " ",
                           "91 0",
                           "53 -181",
                           "53.0685",
                           "1 2 3",
                           "53 61N 4 0W",
                           "53.5 10N 4 0W",
                           "99UVD 1 2",
                           "30UVD123",
                           "61N 427884 5880432",
                           "30N 1 2 3",
                           "nowhere",
                           "53N 4N",
                           "481800 6050400",
                           "1e5 2",
                           "30U 427884 5880432",
                           "53 -4 4 4",
                           "-53N 4W",
                           "53,07 -4,08",  // decimals with a comma are not minutes
                           "53,07N 4,08W",
                           "53,04,06 -4,04,34",
                           "53.0685 \u20144.0763",  // a dash that is no minus
                           "\u202e53.0685 4.0763",
                           "-0N 4W",
                           "53 4 6 4 60 1",
                           "N53 4W",
                           "0N 1 2",
                           "1e999N 1 2"}) {
    const auto at = parse_place(text);
    ASSERT_FALSE(at) << text;
    EXPECT_EQ(at.error().what.find('\n'), std::string::npos);
  }
  EXPECT_FALSE(parse_place(std::string(500, '1')));
  EXPECT_FALSE(parse_place(std::string("53\0 4", 5)));
  EXPECT_NE(parse_place("30U 427884 5880432").error().what.find("hemisphere"), std::string::npos);
  // South of the equator by less than a degree the sign stands on a zero.
  EXPECT_NEAR(parse_place("-0 30 0, 10 0 0")->lat_deg, -0.5, 1e-12);
}

TEST(Places, SixFigureReferenceIsTruncated) {
  EXPECT_EQ(six_figure_reference({481999.9, 6051399.9}), "819 513");
  EXPECT_EQ(six_figure_reference({400000, 6000050}), "000 000");
  EXPECT_EQ(grid_reference({481999.9, 6051399.9}, 5), "81999 51399");
  EXPECT_EQ(grid_reference({481999.9, 6051399.9}, 2), "81 51");
}

// Karney, GeodTest: lat1 lon1 azi1 lat2 lon2 azi2 s12 ...; s12 is printed to 1e-7 m.
TEST(Geodesics, GeodTest) {
  const auto table = support::read_table("geodesic/GeodTest-100.dat");
  ASSERT_EQ(table.size(), 100U);
  for (const auto& r : table) {
    EXPECT_NEAR(geodesic({r[0], r[1]}, {r[3], r[4]}).distance_m, r[6], 1e-7);
    const auto end = travel({r[0], r[1]}, units::TrueBearing::degrees(r[2]), r[6]);
    EXPECT_LE(geodesic(end, {r[3], r[4]}).distance_m, 1e-7);
  }
}

// GeographicLib 2.1.2 `GeodSolve -i -p 6`, last places printed; also where Vincenty's method fails.
TEST(Geodesics, Inverse) {
  struct Case {
    double lat1, lon1, lat2, lon2, azi1, azi2, s12;
  };
  for (const Case& c :
       {Case{0, 0, 0, 1, 90, 90, 111319.490793}, Case{0, 0, 1, 0, 0, 0, 110574.388558},
        Case{45, 0, 46, 0, 0, 0, 111141.548474}, Case{89, 0, 90, 0, 0, 0, 111693.864914},
        Case{60, 5, 60, 6, 89.56698455, 90.43301545, 55799.470393},
        Case{46.5775, 8.0059, 46.6, 8.05, 53.48065942, 53.51269542, 4204.558524},
        Case{51.4778, -0.0015, 53.0685, -4.0763, -55.92850297, -59.15223340, 329609.556810},
        Case{40.6, -73.8, 51.6, -0.5, 51.19888285, 107.82177674, 5551759.400319},
        Case{-41.32, 174.81, 40.96, -5.50, 161.06766999, 18.82519512, 19959679.267354},
        Case{0, 0, 0.5, 179.5, 25.67187287, 154.32708547, 19936288.578965},
        Case{0, 0, 0.5, 179.7, 15.55688279, 164.44251389, 19944127.420750}}) {
    const auto g = geodesic({c.lat1, c.lon1}, {c.lat2, c.lon2});
    EXPECT_NEAR(g.distance_m, c.s12, 6e-7);
    EXPECT_NEAR((g.at_start - units::TrueBearing::degrees(c.azi1)).in_degrees(), 0, 6e-9);
    EXPECT_NEAR((g.at_end - units::TrueBearing::degrees(c.azi2)).in_degrees(), 0, 6e-9);
  }
}

// GeodSolve -p 6, degrees printed to 1e-9 (0.1 mm).
TEST(Geodesics, Direct) {
  struct Case {
    double lat, lon, azi, s12, lat2, lon2;
  };
  for (const Case& c : {Case{46.5775, 8.0059, 30, 10000, 46.655387024, 8.071222209},
                        Case{46.5775, 8.0059, 90, 10000, 46.577425617, 8.136357144},
                        Case{-43.595, 170.1418, 225, 5000, -43.626813266, 170.097993085},
                        Case{78.2232, 15.6267, 45, 3000, 78.242185108, 15.719915024}}) {
    const auto at = travel({c.lat, c.lon}, units::TrueBearing::degrees(c.azi), c.s12);
    EXPECT_NEAR(at.lat_deg, c.lat2, 6e-10);
    EXPECT_NEAR(at.lon_deg, c.lon2, 6e-10);
  }
}

// Areas to search that lie in one square of 100 m, or of 10 m, are told from each other.
TEST(References, OfSeveralPlacesAreApart) {
  const std::vector<GridPoint> places{
      {482010, 6051020}, {482060, 6051020}, {483000, 6051000}, {482062, 6051024}};
  EXPECT_EQ(apart_references(places),
            (std::vector<std::string>{"8201 5102", "82060 51020", "830 510", "82062 51024"}));
}

}  // namespace
}  // namespace lodeway::earth
