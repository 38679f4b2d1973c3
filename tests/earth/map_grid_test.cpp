#include "lodeway/earth/map_grid.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "lodeway/earth/geodesic.hpp"
#include "lodeway/numeric/random.hpp"

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

// The same zone through PROJ under another name (ETRS89): GeoConvert's figures again. The
// ellipsoids differ by less than 0.1 mm.
TEST(MapGrid, OtherGridsByFiniteDifferences) {
  const auto grid = MapGrid::from_text("EPSG:25832");
  ASSERT_TRUE(grid);
  const auto p = grid->to_grid({46.5775, 8.0059});
  EXPECT_NEAR(p->east_m, 423829.485, 0.0006);
  EXPECT_NEAR(p->north_m, 5158694.918, 0.0006);
  EXPECT_NEAR(grid->convergence(*p)->east.in_degrees(), -0.722054, 1.5e-6);
  EXPECT_NEAR(*grid->scale(*p), 0.9996713, 1e-7);
}

// A CRS whose authority names the north first. GeographicLib 2.1.2, `TransverseMercatorProj -l 173
// -k 0.9996 -t -p 9` at -43.595 170.1418, with the grid's false origin 1 600 000, 10 000 000 added.
TEST(MapGrid, NorthFirstGridIsStillEastNorth) {
  const auto grid = MapGrid::from_text("EPSG:2193");
  ASSERT_TRUE(grid);
  const auto p = grid->to_grid({-43.595, 170.1418});
  ASSERT_TRUE(p);
  EXPECT_NEAR(p->east_m, 1600000 - 230711.482026, 0.0005);
  EXPECT_NEAR(p->north_m, 10000000 - 4830861.747347, 0.0005);
  EXPECT_NEAR(grid->convergence(*p)->east.in_degrees(), 1.971756812, 1e-6);
  EXPECT_NEAR(*grid->scale(*p), 1.000254767, 1e-7);
}

// Law: there and back again, within 1e-6 m (1e-11 degrees), over each grid's area of use: also
// where PROJ has several shifts of the datum to choose from (27700, 31467, 5514).
TEST(MapGrid, ThereAndBack) {
  struct Area {
    const char* crs;
    double west, south, east, north;
  };
  numeric::Random random(20260701);
  for (const Area& a :
       {Area{"EPSG:25832", 6, 45, 12, 60}, Area{"EPSG:2056", 6, 45.9, 10.4, 47.8},
        Area{"EPSG:27700", -8, 50, 2, 60.9}, Area{"EPSG:31467", 7.6, 47.4, 10.5, 55},
        Area{"EPSG:2154", -1, 43, 7, 50}, Area{"EPSG:5514", 12.2, 47.8, 22.5, 51},
        Area{"EPSG:2193", 167, -47, 178, -35}, Area{"EPSG:32759", 165, -47, 174, -35}}) {
    const auto grid = MapGrid::from_text(a.crs);
    ASSERT_TRUE(grid) << a.crs;
    double worst = 0;
    for (int i = 0; i < 300; ++i) {
      const Geographic at{a.south + (a.north - a.south) * random.uniform(),
                          a.west + (a.east - a.west) * random.uniform()};
      const auto p = grid->to_grid(at);
      ASSERT_TRUE(p) << a.crs << " " << at.lat_deg << " " << at.lon_deg;
      const auto back = grid->to_geographic(*p);
      ASSERT_TRUE(back) << a.crs;
      worst = std::max(worst, geodesic(at, *back).distance_m);
    }
    EXPECT_LE(worst, 1e-6) << a.crs;
  }
}

// PROJ changes its shift of the datum by place; across such a line a finite difference was degrees
// off. Convergence must be smooth: over 200 m it changes by far less than 0.01 degrees.
TEST(MapGrid, ConvergenceIsSmooth) {
  const auto grid = MapGrid::from_text("EPSG:5514");
  ASSERT_TRUE(grid);
  const GridPoint start = *grid->to_grid({49.2, 16.0});
  double before = grid->convergence(start)->east.in_degrees();
  for (int i = 1; i < 2000; ++i) {
    const double now = grid->convergence(start + GridPoint{200.0 * i, 0})->east.in_degrees();
    ASSERT_NEAR(now, before, 0.01) << i;
    before = now;
  }
}

// A ballpark shift outside a CRS's area could be hundreds of metres off and would say nothing.
TEST(MapGrid, RefusesPlacesFarOutsideItsArea) {
  const auto grid = MapGrid::from_text("EPSG:2056");
  EXPECT_TRUE(grid->to_grid({47.2, 11.0}));
  EXPECT_FALSE(grid->to_grid({51.5, 0.0}));
  EXPECT_FALSE(grid->to_geographic({0, 0}));
  EXPECT_FALSE(MapGrid::from_text("EPSG:32632")->to_grid({46, 60}));
  EXPECT_FALSE(MapGrid::from_text("EPSG:32632")->to_grid({std::nan(""), 9}));
  EXPECT_FALSE(MapGrid().to_geographic({1e9, 0}));
}

TEST(MapGrid, TextsThatNameAGrid) {
  const auto zone = MapGrid::from_text("EPSG:32629");
  EXPECT_EQ(zone->name(), "WGS 84 / UTM zone 29N");
  EXPECT_EQ(zone->epsg(), 32629);
  EXPECT_EQ(MapGrid::from_text(zone->wkt())->epsg(), 32629);  // its own WKT leads back to it
  const auto formula =
      MapGrid::from_text("+proj=tmerc +lon_0=9 +k=0.9996 +x_0=500000 +datum=WGS84 +units=m");
  ASSERT_TRUE(formula) << formula.error().what;
  EXPECT_EQ(formula->epsg(), 0);
  EXPECT_NEAR(formula->to_grid({46.5775, 8.0059})->east_m, 423829.485,
              0.0006);  // UTM 32 by its formula
  EXPECT_FALSE(MapGrid::from_text("EPSG:27700")->datum_remark().empty());
  const auto unknown = MapGrid::from_text("+proj=tmerc +lon_0=9 +ellps=bessel +units=m");
  ASSERT_TRUE(unknown) << unknown.error().what;
  EXPECT_NE(unknown->datum_remark().find("not known"), std::string::npos);
  EXPECT_TRUE(unknown->to_grid({47, 9}));
  EXPECT_TRUE(zone->datum_remark().empty());
}

// One grid, many threads: each must get the same figures.
TEST(MapGrid, ManyThreads) {
  const auto grid = MapGrid::from_text("EPSG:2193");
  ASSERT_TRUE(grid);
  const GridPoint expected = *grid->to_grid({-43.595, 170.1418});
  std::atomic<int> different = 0;
  {
    std::vector<std::jthread> threads;
    for (int k = 0; k < 4; ++k) {
      threads.emplace_back([&] {
        for (int i = 0; i < 200; ++i) {
          if (*grid->to_grid({-43.595, 170.1418}) != expected) ++different;
        }
      });
    }
  }
  EXPECT_EQ(different, 0);
}

TEST(MapGrid, RefusesWhatIsNotAMetricGrid) {
  for (const char* text : {"EPSG:4326", "EPSG:999999", "", "EPSG:2264" /* feet */, "nonsense",
                           "EPSG:2053" /* counts west and south */, "EPSG:4978", "EPSG:32661x"}) {
    const auto grid = MapGrid::from_text(text);
    ASSERT_FALSE(grid) << text;
    EXPECT_EQ(grid.error().code, FaultCode::bad_input);
    EXPECT_EQ(grid.error().what.find('\n'), std::string::npos);
  }
}

}  // namespace
}  // namespace lodeway::earth
