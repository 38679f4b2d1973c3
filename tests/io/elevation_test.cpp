// Heights into the ground's grid: exact pass-through, corners, datum, units, voids, bad files.
#include <cmath>
#include <cstdio>
#include <functional>
#include <limits>
#include <memory>

#include <gdal_priv.h>
#include <gtest/gtest.h>

#include "lodeway/io/elevation/elevation.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;
using Scratch = support::TemporaryFolder;

struct Tiff {
  int cols = 4, rows = 3;
  double west = 600'000, north = 5'200'000, cell = 10;
  const char* crs = "EPSG:32632";
  const char* unit = "";
  double no_data = std::nan("");
  bool point = false;  // AREA_OF_POINT=Point: the place given is a centre
  std::vector<float> heights{};
  const char* driver = "GTiff";

  std::string write(const std::string& path) const {
    GDALAllRegister();
    const char* options[] = {nullptr};
    auto* data = GetGDALDriverManager()->GetDriverByName(driver)->Create(
        path.c_str(), cols, rows, 1, GDT_Float32, const_cast<char**>(options));
    if (point) data->SetMetadataItem("AREA_OR_POINT", "Point");
    double t[] = {west, cell, 0, north, 0, -cell};
    data->SetGeoTransform(t);
    if (*crs != '\0') {
      OGRSpatialReference s;
      s.SetFromUserInput(crs);
      data->SetSpatialRef(&s);
    }
    auto* band = data->GetRasterBand(1);
    if (*unit != '\0') band->SetUnitType(unit);
    if (!std::isnan(no_data)) band->SetNoDataValue(no_data);
    std::vector<float> z = heights;
    for (int i = static_cast<int>(z.size()); i < cols * rows; ++i)
      z.push_back(100.0F + static_cast<float>(i));
    EXPECT_EQ(band->RasterIO(GF_Write, 0, 0, cols, rows, z.data(), cols, rows, GDT_Float32, 0, 0,
                             nullptr),
              CE_None);
    GDALClose(data);
    return path;
  }
};

io::ElevationRead read(io::ElevationRequest request) {
  auto result = io::read_elevation(request);
  EXPECT_TRUE(result) << result.error().what;
  return result ? std::move(*result) : io::ElevationRead{};
}

void expect_refused(const io::ElevationRequest& request, FaultCode code, const std::string& part) {
  const auto result = io::read_elevation(request);
  ASSERT_FALSE(result) << part;
  EXPECT_EQ(result.error().code, code) << result.error().what;
  EXPECT_NE(result.error().what.find(part), std::string::npos) << result.error().what;
  EXPECT_EQ(result.error().what.find('\n'), std::string::npos) << result.error().what;
}

TEST(Elevation, pieces_far_apart_are_told_to_be_separate_grounds) {
  const Scratch scratch;
  Tiff here{.cols = 40, .rows = 30}, beside{.cols = 40, .rows = 30, .west = 600'400},
      far{.cols = 40, .rows = 30, .west = 700'000, .north = 5'230'000};
  const auto a = here.write(scratch / "a.tif"), b = beside.write(scratch / "b.tif"),
             c = far.write(scratch / "c.tif");
  expect_refused({{a, c, b}, "", 0, {}}, FaultCode::bad_input, a + ", " + b + " | " + c);
  EXPECT_EQ(read({{a, b}, "", 0, {}}).heights.cols(), 80);
  // who names the bounds has said what is wanted
  const auto r = read({{a, c}, "EPSG:32632", 0, {{600'000, 5'199'000, 601'000, 5'200'000}}});
  EXPECT_EQ(r.heights.cols(), 100);
}

TEST(Elevation, the_same_grid_comes_through_bit_for_bit) {
  const Scratch scratch;
  const auto r = read({{Tiff{}.write(scratch / "a.tif")}, "", 0, {}});
  EXPECT_EQ(r.grid.epsg(), 32632);
  EXPECT_EQ(r.heights.frame(), (terrain::Frame{600'000, 5'200'000, 10, 3, 4}));
  // one known cell in each corner: row 0 north, column 0 west
  EXPECT_EQ((r.heights[0, 0]), 100);
  EXPECT_EQ((r.heights[0, 3]), 103);
  EXPECT_EQ((r.heights[2, 0]), 108);
  EXPECT_EQ((r.heights[2, 3]), 111);
  ASSERT_EQ(r.sources.size(), 1U);
  EXPECT_EQ(r.sources[0].crs, "EPSG:32632");
  EXPECT_EQ(r.sources[0].file, "a.tif");
}

TEST(Elevation, point_registration_is_half_a_cell_further) {
  const Scratch scratch;
  // GDAL takes the geotransform given as that of the outer corner also for "Point" files and writes
  // the centre into the tie point, so the file is the same ground: the corner must not move on the
  // way back.
  const auto r = read({{Tiff{.point = true}.write(scratch / "p.tif")}, "", 0, {}});
  EXPECT_EQ(r.heights.frame().west_m, 600'000);
  EXPECT_EQ(r.heights.frame().north_m, 5'200'000);
  EXPECT_EQ((r.heights[2, 3]), 111);
}

// SRTM's HGT by its definition: big-endian, from the north-west, sample (0, 0) lies ON the corner
// of the degree, 1201 samples a degree. Written by hand; the heights are 10 m a column and 1 m a
// row.
TEST(Elevation, hgt_samples_lie_on_whole_degrees) {
  const Scratch scratch;
  std::string bytes;
  for (int r = 0; r < 1201; ++r) {
    for (int c = 0; c < 1201; ++c) {
      const int z = r == 600 && c == 601 ? -32768 : c / 2 + r;
      bytes += static_cast<char>((z >> 8) & 255);
      bytes += static_cast<char>(z & 255);
    }
  }
  scratch.write("N46E007.hgt", bytes);
  const auto r = read({{scratch / "N46E007.hgt"}, "EPSG:32632", 30, {{7.4, 46.4, 7.6, 46.6}}});
  // latitude 46.55 is row (47 - 46.55) * 1200 = 540, longitude 7.45 is column 540
  const auto at = r.grid.to_grid({46.55, 7.45}).value();
  EXPECT_NEAR(terrain::height_at(r.heights, at), 540 + 270,
              0.6);  // c / 2 is a stair of half metres
  scratch.write("N46E008.hgt", bytes.substr(2));
  expect_refused({{scratch / "N46E008.hgt"}, "", 0, {}}, FaultCode::bad_input,
                 "expected 1201 x 1201 or 3601 x 3601 heights");
}

TEST(Elevation, units_voids_and_nonsense) {
  const Scratch scratch;
  constexpr float nan = std::numeric_limits<float>::quiet_NaN(),
                  inf = std::numeric_limits<float>::infinity();
  const auto feet =
      read({{Tiff{.unit = "ft", .heights = {1000}}.write(scratch / "ft.tif")}, "", 0, {}});
  EXPECT_NEAR((feet.heights[0, 0]), 304.8, 1e-4);  // 1 ft = 0.3048 m
  EXPECT_EQ(feet.remarks.size(), 1U);
  const auto voids =
      read({{Tiff{.no_data = -5, .heights = {-5, nan, inf, -inf, 1e30F, -32768, 7}}.write(scratch /
                                                                                          "v.tif")},
            "",
            0,
            {}});
  for (int i = 0; i < 4; ++i) EXPECT_TRUE(std::isnan(voids.heights[0, i])) << i;
  EXPECT_TRUE(std::isnan(voids.heights[1, 0]));
  EXPECT_TRUE(std::isnan(voids.heights[1, 1]));
  EXPECT_EQ((voids.heights[1, 2]), 7);
  expect_refused({{Tiff{.unit = "furlong"}.write(scratch / "u.tif")}, "", 0, {}},
                 FaultCode::bad_input, "u.tif: expected heights in metres or feet");
  expect_refused(
      {{Tiff{.no_data = 5, .heights = std::vector<float>(12, 5)}.write(scratch / "n.tif")},
       "",
       0,
       {}},
      FaultCode::bad_input, "n.tif: expected heights, found only voids");
}

TEST(Elevation, mosaic_fills_voids_from_the_later_file_and_bounds_cut) {
  const Scratch scratch;
  Tiff a{.no_data = 0, .heights = {1, 0, 3, 4}}, b{};
  b.heights = std::vector<float>(12, 50);
  Tiff c{.west = 600'040};
  const auto r =
      read({{a.write(scratch / "a.tif"), b.write(scratch / "b.tif"), c.write(scratch / "c.tif")},
            "",
            0,
            {}});
  EXPECT_EQ(r.heights.cols(), 8);
  EXPECT_EQ((r.heights[0, 0]), 1);
  EXPECT_EQ((r.heights[0, 1]), 50);
  EXPECT_EQ((r.heights[0, 4]), 100);
  const auto cut =
      read({{scratch / "c.tif"}, "EPSG:32632", 0, {{600'051, 5'199'981, 600'059, 5'199'989}}});
  EXPECT_EQ(cut.heights.frame(), (terrain::Frame{600'050, 5'199'990, 10, 1, 1}));
  EXPECT_EQ((cut.heights[0, 0]), 105);
  expect_refused({{scratch / "c.tif"}, "EPSG:32632", 0, {{0, 0.0, 500, 500}}}, FaultCode::bad_input,
                 "only voids");
  expect_refused({{scratch / "c.tif"}, "", 0, {{5e5, 5e5, 6e5, 6e5}}}, FaultCode::bad_input,
                 "bounds: ");
  expect_refused({{scratch / "c.tif"}, "", 0, {{9, 46, 8, 47}}}, FaultCode::bad_input,
                 "bounds: expected west < east");
}

// A plane stays the same plane under bilinear interpolation: an exact expectation, but for the
// place, which is exact to 0.01 cell: 0.01 * hypot(2, 3) m a cell = 0.036 m.
TEST(Elevation, a_plane_resampled_is_the_same_plane) {
  const Scratch scratch;
  Tiff t{.cols = 60, .rows = 50};
  for (int r = 0; r < 50; ++r) {
    for (int c = 0; c < 60; ++c) t.heights.push_back(static_cast<float>(500 + 2 * c - 3 * r));
  }
  t.write(scratch / "plane.tif");
  const auto plane = [&](earth::GridPoint p) {
    return 500 + 2 * ((p.east_m - 600'005) / 10) - 3 * ((5'199'995 - p.north_m) / 10);
  };
  for (const double cell : {4.0, 10.0, 12.5}) {
    const auto r = read(
        {{scratch / "plane.tif"}, "EPSG:32632", cell, {{600'103, 5'199'605, 600'497, 5'199'893}}});
    for (int i = 0; i < r.heights.rows(); ++i) {
      for (int j = 0; j < r.heights.cols(); ++j) {
        ASSERT_NEAR((r.heights[i, j]), plane(r.heights.frame().centre(i, j)), 0.036)
            << cell << " " << i << " " << j;
      }
    }
  }
}

TEST(Elevation, bad_files) {
  const Scratch scratch;
  expect_refused({{scratch / "none.tif"}, "", 0, {}}, FaultCode::io_failed,
                 "none.tif: expected a file of heights");
  expect_refused({{scratch.write("t.tif", "hello")}, "", 0, {}}, FaultCode::bad_input, "t.tif: ");
  expect_refused({{Tiff{.crs = ""}.write(scratch / "c.tif")}, "", 0, {}}, FaultCode::bad_input,
                 "c.tif: expected a file that says its coordinate system");
  Tiff{.cols = 300, .rows = 300}.write(scratch / "big.tif");
  const auto whole = support::read_text(scratch / "big.tif");
  for (const std::size_t part : {50UZ, whole.size() / 4, whole.size() / 2, whole.size() - 10'000}) {
    expect_refused({{scratch.write("cut.tif", whole.substr(0, part))}, "", 0, {}},
                   FaultCode::bad_input, "cut.tif: ");
  }
  expect_refused({{Tiff{}.write(scratch / "a.tif")}, "EPSG:4326", 0, {}}, FaultCode::bad_input,
                 "crs: ");
  expect_refused({{scratch / "a.tif"}, "", 0.001, {}}, FaultCode::bad_input,
                 "cell: expected 0.1 to 1000 m");
  expect_refused({{Tiff{.cols = 60'000, .rows = 1}.write(scratch / "w.tif"),
                   Tiff{.cols = 1, .rows = 60'000}.write(scratch / "n.tif")},
                  "",
                  1,
                  {}},
                 FaultCode::too_large, "ask for less with --bounds");
  // The whole Earth sent PROJ 9.1 round in a circle until the stack was full.
  expect_refused({{scratch / "a.tif"}, "", 0, {{-180, -90, 180, 90}}}, FaultCode::too_large,
                 "bounds: expected at most 12 degrees");
  Tiff pole{.west = 10, .north = 89.9, .cell = 0.1, .crs = "EPSG:4326"};
  expect_refused({{pole.write(scratch / "pole.tif")}, "", 0, {}}, FaultCode::outside_validity,
                 "crs: ");
}

TEST(Elevation, one_cell_and_stopping) {
  const Scratch scratch;
  Tiff one{.cols = 1, .rows = 1, .heights = {321.5F}};
  const auto r = read({{one.write(scratch / "one.tif")}, "", 0, {}});
  EXPECT_EQ(r.heights.rows(), 1);
  EXPECT_EQ((r.heights[0, 0]), 321.5F);
  one.crs = "EPSG:25832";  // through the warper
  EXPECT_EQ(read({{one.write(scratch / "e.tif")}, "EPSG:32632", 0, {}}).heights.frame().size(), 1U);
  const io::ElevationRequest request{{scratch / "one.tif"}, "", 0, {}};
  const auto stopped = io::read_elevation(request, [](double, std::string_view) { return false; });
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().code, FaultCode::cancelled);
}

/// A file of a smooth ground given in a grid (of EPSG `grid`), whatever the file's own system.
std::string sampled(Tiff t, const std::string& path, int grid,
                    const std::function<double(double, double)>& height) {
  GDALAllRegister();
  OGRSpatialReference from, to;
  from.SetFromUserInput(t.crs);
  to.importFromEPSG(grid);
  from.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  to.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  const std::unique_ptr<OGRCoordinateTransformation> turn(
      OGRCreateCoordinateTransformation(&from, &to));
  t.heights.clear();
  for (int r = 0; r < t.rows; ++r) {
    for (int c = 0; c < t.cols; ++c) {
      double x = t.west + (c + 0.5) * t.cell, y = t.north - (r + 0.5) * t.cell;
      EXPECT_TRUE(turn->Transform(1, &x, &y));
      t.heights.push_back(static_cast<float>(height(x, y)));
    }
  }
  return t.write(path);
}

/// The worst difference from `height` over known cells that are `inside` cells from any void and
/// the rim, and the share of all cells that are known.
std::pair<double, double> against(const io::ElevationRead& r,
                                  const std::function<double(double, double)>& height,
                                  int inside = 0) {
  double worst = 0, known = 0;
  const auto there = [&](int i, int j) {
    return r.heights.frame().holds(i, j) && !std::isnan(r.heights[i, j]);
  };
  for (int i = 0; i < r.heights.rows(); ++i) {
    for (int j = 0; j < r.heights.cols(); ++j) {
      if (!there(i, j)) continue;
      ++known;
      if (!there(i - inside, j) || !there(i + inside, j) || !there(i, j - inside) ||
          !there(i, j + inside))
        continue;
      const auto p = r.heights.frame().centre(i, j);
      worst = std::max(
          worst, std::abs(static_cast<double>(r.heights[i, j]) - height(p.east_m, p.north_m)));
    }
  }
  return {worst, known / static_cast<double>(r.heights.cells().size())};
}

// Two systems, two datums, two cells: 10 m in UTM 32 beside 25 m of Switzerland's grid (EPSG:2056,
// CH1903+). One plane, 0.3 in 1: a datum left out would move it by more than 100 m, 30 m in height;
// PROJ turns CH1903+ within 1 m, 0.3 m in height.
TEST(Elevation, mosaic_of_two_cells_and_two_datums) {
  const Scratch scratch;
  const auto plane = [](double x, double y) {
    return 900 + 0.3 * (x - 440'000) - 0.1 * (y - 5'170'000);
  };
  const auto a = sampled({.cols = 100, .rows = 200, .west = 440'000, .north = 5'171'000},
                         scratch / "a.tif", 32632, plane);
  // cs2cs EPSG:32632 EPSG:2056 (PROJ 9.1.1): 440000 5169000 is 2659452 1169254, 442000 5171000 is
  // 2661413 1171294
  const auto b = sampled({.cols = 160,
                          .rows = 160,
                          .west = 2'658'500,
                          .north = 1'172'300,
                          .cell = 25,
                          .crs = "EPSG:2056"},
                         scratch / "b.tif", 32632, plane);
  const auto r = read({{a, b}, "EPSG:32632", 10, {{440'000, 5'169'000, 442'000, 5'171'000}}});
  const auto [worst, known] = against(r, plane);
  EXPECT_EQ(known, 1.0);
  EXPECT_LT(worst, 0.4);
  EXPECT_EQ((r.heights[5, 5]), static_cast<float>(plane(440'055, 5'170'945)))
      << "its own cells as they were";
}

// Round the 180th meridian, south of the equator: two tiles that end there, and one file across it,
// both as 179.9 to 180.1 and as it is cut by bounds whose west is greater than their east.
TEST(Elevation, antimeridian_south_of_the_equator) {
  const Scratch scratch;
  const auto plane = [](double x, double y) {
    return 500 + 0.02 * (x - 820'000) + 0.01 * (y - 8'130'000);
  };
  const Tiff west{
      .cols = 100, .rows = 80, .west = 179.9, .north = -16.8, .cell = 0.001, .crs = "EPSG:4326"};
  Tiff east = west, across = west;
  east.west = -180;
  across.cols = 200;
  const std::vector<std::string> tiles{sampled(west, scratch / "w.tif", 32760, plane),
                                       sampled(east, scratch / "e.tif", 32760, plane)};
  const auto one = sampled(across, scratch / "across.tif", 32760, plane);
  for (const auto& files :
       {tiles, std::vector<std::string>{tiles[1], tiles[0]}, std::vector<std::string>{one}}) {
    const auto r = read({files, "EPSG:32760", 100, {}});
    EXPECT_NEAR(r.heights.frame().cell_m * r.heights.cols(), 21'300, 600)
        << "20 km, not the way round the Earth";
    const auto [worst, known] = against(r, plane);
    EXPECT_LT(worst, 1.2);  // half a cell beside the seam and rims: 55 m * 0.022
    EXPECT_GT(known, 0.93) << "no gap along the meridian";
    const auto cut = read({files, "EPSG:32760", 100, {{179.95, -16.86, -179.95, -16.82}}});
    EXPECT_GT(against(cut, plane).second, 0.97);
    const auto own = read({files, "", 100, {}});
    EXPECT_TRUE(own.grid.epsg() == 32760 || own.grid.epsg() == 32701) << own.grid.name();
  }
  expect_refused({{one}, "", 0, {{10, -16, 9, -15}}}, FaultCode::bad_input,
                 "bounds: expected west < east");
}

// At 12 E zones 32 and 33 meet: the ground lies in the zone of its middle and runs on beyond.
TEST(Elevation, across_the_border_of_two_zones) {
  const Scratch scratch;
  const auto plane = [](double x, double y) {
    return 700 + 0.05 * (x - 270'000) - 0.02 * (y - 5'200'000);
  };
  const auto file = sampled(
      {.cols = 200, .rows = 60, .west = 11.85, .north = 47.0, .cell = 0.001, .crs = "EPSG:4326"},
      scratch / "z.tif", 32632, [&](double, double) { return 0.0; });
  EXPECT_EQ(read({{file}, "", 50, {}}).grid.epsg(), 32632);  // 11.95
  const auto there = sampled(
      {.cols = 220, .rows = 60, .west = 11.9, .north = 47.0, .cell = 0.001, .crs = "EPSG:4326"},
      scratch / "y.tif", 32633, plane);
  const auto r = read({{there}, "", 50, {}});
  EXPECT_EQ(r.grid.epsg(), 32633);  // 12.01
  const auto [worst, known] = against(r, plane, 2);
  EXPECT_LT(worst, 0.1);  // 0.01 cell of 76 m by 0.05, and a degree's curve within a cell
  EXPECT_GT(known, 0.85);
}

}  // namespace
