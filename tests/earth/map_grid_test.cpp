#include "lodeway/earth/map_grid.hpp"

#include <gtest/gtest.h>

namespace lodeway::earth {
namespace {

struct Row {
  double lat, lon;
  const char* crs;
  double east, north, convergence, scale;
};
// Computed with GeographicLib 2.1.2 `GeoConvert -u` and `-c`; PROJ 9.1.1 agrees to all digits.
constexpr Row rows[] = {
    {51.4778, -0.0015, "EPSG:32630", 708213.951, 5707224.543, 2.346765, 1.0001323},
    {53.0685, -4.0763, "EPSG:32630", 427884.653, 5880432.096, -0.860382, 0.9996638},
    {46.5775, 8.0059, "EPSG:32632", 423829.485, 5158694.918, -0.722054, 0.9996713},
    {-43.5950, 170.1418, "EPSG:32759", 430728.143, 5172750.267, 0.591801, 0.9996590},
    {60.3913, 5.3221, "EPSG:32632", 297353.933, 6700648.345, -3.198717, 0},
    {60.3913, 5.3221, "EPSG:32631", 627970.850, 6697245.735, 2.019151, 0},
    {78.2232, 15.6267, "EPSG:32633", 514278.715, 8683355.469, 0.613509, 0},
};

TEST(MapGrid, UtmTable) {
  for (const auto& r : rows) {
    const auto grid = MapGrid::from_text(r.crs);
    ASSERT_TRUE(grid) << r.crs;
    const auto p = grid->to_grid({r.lat, r.lon});
    ASSERT_TRUE(p);
    EXPECT_NEAR(p->east_m, r.east, 0.0005) << r.crs;
    EXPECT_NEAR(p->north_m, r.north, 0.0005) << r.crs;
    EXPECT_NEAR(grid->convergence(*p)->east.in_degrees(), r.convergence, 5e-7);
    if (r.scale > 0) {
      EXPECT_NEAR(*grid->scale(*p), r.scale, 1e-7);
    }
    const auto back = grid->to_geographic(*p);
    EXPECT_NEAR(back->lat_deg, r.lat, 1e-11);
    EXPECT_NEAR(back->lon_deg, r.lon, 1e-11);
  }
}

TEST(MapGrid, ZoneOfThePlaceWithNorwayAndSvalbard) {
  EXPECT_EQ(MapGrid::utm_at({60.3913, 5.3221})->epsg(), 32632);
  EXPECT_EQ(MapGrid::utm_at({78.0, 9.0})->epsg(), 32633);
  EXPECT_EQ(MapGrid::utm_at({-43.595, 170.1418})->epsg(), 32759);
  EXPECT_FALSE(MapGrid::utm_at({84.5, 0}));
}

// The same zone through PROJ under another name (ETRS89): convergence by finite differences must
// agree with the exact figure.
TEST(MapGrid, OtherGridsByFiniteDifferences) {
  const auto grid = MapGrid::from_text("EPSG:25832");
  ASSERT_TRUE(grid);
  const auto p = grid->to_grid({46.5775, 8.0059});
  EXPECT_NEAR(p->east_m, 423829.485, 0.001);
  EXPECT_NEAR(p->north_m, 5158694.918, 0.001);
  EXPECT_NEAR(grid->convergence(*p)->east.in_degrees(), -0.722054, 1e-5);
  EXPECT_NEAR(*grid->scale(*p), 0.9996713, 1e-7);
}

TEST(MapGrid, RefusesWhatIsNotAMetricGrid) {
  for (const char* text : {"EPSG:4326", "EPSG:999999", "", "EPSG:2264" /* feet */, "nonsense"}) {
    EXPECT_FALSE(MapGrid::from_text(text)) << text;
  }
}

}  // namespace
}  // namespace lodeway::earth
