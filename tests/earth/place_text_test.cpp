#include "lodeway/earth/place_text.hpp"

#include <gtest/gtest.h>

#include "lodeway/earth/geodesic.hpp"
#include "support/support.hpp"

namespace lodeway::earth {
namespace {

struct Row {
  double lat, lon;
  const char* mgrs_1m;
  const char* mgrs_100m;
};
// GeographicLib 2.1.2 `GeoConvert -m`; digits are truncated, never rounded (NGA.STND.0037).
constexpr Row rows[] = {
    {51.4778, -0.0015, "30UYC0821307224", "30UYC082072"},
    {53.0685, -4.0763, "30UVD2788480432", "30UVD278804"},
    {0, 0, "31NAA6602100000", "31NAA660000"},
    {-0.000001, 0, "31MAV6602199999", "31MAV660999"},
    {60.3913, 5.3221, "32VKN9735300648", "32VKN973006"},
    {78.0, 9.0, "33XUG6097365496", "33XUG609654"},
    {84, 0, "ZAA0000033272", "ZAA000332"},
    {-80.000001, 0, "BAZ0000012951", "BAZ000129"},
};

TEST(Places, MgrsOut) {
  for (const auto& r : rows) {
    EXPECT_EQ(*mgrs({r.lat, r.lon}), r.mgrs_1m);
    EXPECT_EQ(*mgrs({r.lat, r.lon}, 3), r.mgrs_100m);
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
        "30N 427884.653 5880432.096", "427884.653 5880432.096"}) {
    const auto at = parse_place(text, &*grid);
    ASSERT_TRUE(at) << text << ": " << at.error().what;
    EXPECT_NEAR(at->lat_deg, 53.0685, 1e-8) << text;
    EXPECT_NEAR(at->lon_deg, -4.0763, 1e-8) << text;
  }
}

TEST(Places, RefusedInOneLine) {
  for (const char* text : {"", " ", "91 0", "53 -181", "53.0685", "1 2 3", "53 61N 4 0W",
                           "53.5 10N 4 0W", "99UVD 1 2", "30UVD123", "61N 427884 5880432",
                           "30N 1 2 3", "nowhere", "53N 4N", "481800 6050400", "1e5 2"}) {
    const auto at = parse_place(text);
    ASSERT_FALSE(at) << text;
    EXPECT_EQ(at.error().what.find('\n'), std::string::npos);
  }
  EXPECT_FALSE(parse_place(std::string(500, '1')));
}

TEST(Places, SixFigureReferenceIsTruncated) {
  EXPECT_EQ(six_figure_reference({481999.9, 6051399.9}), "819 513");
  EXPECT_EQ(six_figure_reference({400000, 6000050}), "000 000");
}

// Karney, GeodTest: lat1 lon1 azi1 lat2 lon2 azi2 s12 ...; distances within 15 nm, printed to 1e-7
// m.
TEST(Geodesics, GeodTest) {
  const auto table = support::read_table("geodesic/GeodTest-100.dat");
  ASSERT_EQ(table.size(), 100U);
  for (const auto& r : table) {
    const auto g = geodesic({r[0], r[1]}, {r[3], r[4]});
    EXPECT_NEAR(g.distance_m, r[6], 1e-6);
    const auto end = travel({r[0], r[1]}, units::TrueBearing::degrees(r[2]), r[6]);
    EXPECT_NEAR(end.lat_deg, r[3], 1e-12);
  }
}

}  // namespace
}  // namespace lodeway::earth
