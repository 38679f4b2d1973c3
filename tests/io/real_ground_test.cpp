// Terrain analysis on real ground, beside GDAL's and beside plain implementations, with the shares.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include <gdal_alg.h>
#include <gdal_utils.h>
#include <gtest/gtest.h>
#include <ogr_srs_api.h>

#include "lodeway/io/elevation/elevation.hpp"
#include "lodeway/io/vector/features.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/terrain/streams.hpp"
#include "lodeway/terrain/visibility.hpp"
#include "support/support.hpp"
#include "terrain/plain_drainage.hpp"

namespace lodeway {
namespace {

using earth::GridPoint;
using terrain::Elevation;
using terrain::Seen;

io::ElevationRead heights_of(const std::string& file, const std::string& crs) {
  auto read = io::read_elevation({{file}, crs, 0, {}});
  EXPECT_TRUE(read) << read.error().what;
  return read ? std::move(*read) : io::ElevationRead{};
}
io::ElevationRead interlaken(const std::string& data) {
  return heights_of(data + "/dem-interlaken-25m/dhm25_interlaken_lv95.tif", "EPSG:2056");
}
io::ElevationRead mongon(const std::string& data) {
  return heights_of(data + "/dem-mongon-30m/dem.tif", "EPSG:32717");
}

/// A raster in memory as GDAL's data set.
class InMemory {
 public:
  explicit InMemory(Elevation heights, int epsg) : heights_(std::move(heights)) {
    GDALAllRegister();
    const auto& f = heights_.frame();
    set_ = GDALCreate(GDALGetDriverByName("MEM"), "", f.cols, f.rows, 1, GDT_Float32, nullptr);
    double transform[6] = {f.west_m, f.cell_m, 0, f.north_m, 0, -f.cell_m};
    EXPECT_EQ(GDALSetGeoTransform(set_, transform), CE_None);
    OGRSpatialReferenceH srs = OSRNewSpatialReference(nullptr);
    OSRImportFromEPSG(srs, epsg);
    EXPECT_EQ(GDALSetSpatialRef(set_, srs), CE_None);
    OSRDestroySpatialReference(srs);
    EXPECT_EQ(GDALRasterIO(band(), GF_Write, 0, 0, f.cols, f.rows, heights_.cells().data(), f.cols,
                           f.rows, GDT_Float32, 0, 0),
              CE_None);
  }
  ~InMemory() { GDALClose(set_); }
  InMemory(const InMemory&) = delete;
  InMemory& operator=(const InMemory&) = delete;
  [[nodiscard]] GDALDatasetH set() const { return set_; }
  [[nodiscard]] GDALRasterBandH band() const { return GDALGetRasterBand(set_, 1); }

 private:
  Elevation heights_;
  GDALDatasetH set_;
};

template <class T>
std::vector<T> cells_of(GDALDatasetH set, GDALDataType type) {
  const int w = GDALGetRasterXSize(set), h = GDALGetRasterYSize(set);
  std::vector<T> out(static_cast<std::size_t>(w) * static_cast<std::size_t>(h));
  EXPECT_EQ(
      GDALRasterIO(GDALGetRasterBand(set, 1), GF_Read, 0, 0, w, h, out.data(), w, h, type, 0, 0),
      CE_None);
  return out;
}

/// Share of all cells, over some eyes, on which we and GDAL agree.
double viewshed_agreement(const Elevation& heights, int epsg, std::size_t& all) {
  std::size_t same = 0;
  all = 0;
  const auto& f = heights.frame();
  for (int i = 1; i <= 3; ++i) {
    for (int j = 1; j <= 3; ++j) {
      const int row = f.rows * i / 4, col = f.cols * j / 4;
      // GDAL 3.6.2 lets the ground of the eye's own cell hide what lies below it. So the cell is
      // sunk, and the eye stands on a mast of as much more: the same eye, no ground about it.
      auto sunk = heights;
      sunk[row, col] -= 500;
      const InMemory ground(sunk, epsg);
      const GridPoint eye = f.centre(row, col);
      terrain::Sight sight;
      sight.eye_m = 501.6;
      // GDAL takes the ellipsoid's half axis for the Earth's radius; the same sinking for both.
      const double curve = (1 - sight.refraction) * 6378137.0 / terrain::earth_radius_m;
      GDALDatasetH theirs = GDALViewshedGenerate(
          ground.band(), "MEM", "", nullptr, eye.east_m, eye.north_m, sight.eye_m, 0, 1, 0, 2, -1,
          curve, GVM_Edge, 0, nullptr, nullptr, GVOT_NORMAL, nullptr);
      EXPECT_NE(theirs, nullptr);
      if (theirs == nullptr) return 0;
      const auto judge = cells_of<unsigned char>(theirs, GDT_Byte);
      GDALClose(theirs);
      const auto ours = terrain::viewshed(sunk, eye, sight);
      EXPECT_EQ(judge.size(), ours.cells().size());
      for (std::size_t k = 0; k < judge.size(); ++k) {
        same += (judge[k] == 1) == (ours.cells()[k] == Seen::seen);
      }
      all += judge.size();
    }
  }
  return static_cast<double>(same) / static_cast<double>(all);
}

TEST(RealGround, ViewshedAgreesWithGdal) {
  LODEWAY_NEEDS_SHARED(data);
  for (const auto& [name, ground, epsg] : {std::tuple{"interlaken", interlaken(data).heights, 2056},
                                           std::tuple{"mongon", mongon(data).heights, 32717}}) {
    std::size_t all = 0;
    const double share = viewshed_agreement(ground, epsg, all);
    std::printf("viewshed, %s, 9 eyes: %.5f of %zu cells as GDAL has them\n", name, share, all);
    EXPECT_GE(share, 0.9999) << name;
  }
}

TEST(RealGround, SlopeAndAspectAsGdal) {
  LODEWAY_NEEDS_SHARED(data);
  const auto heights = interlaken(data).heights;
  const InMemory ground(heights, 2056);
  for (const char* what : {"slope", "aspect"}) {
    GDALDatasetH theirs =
        GDALDEMProcessing("/vsimem/t.tif", ground.set(), what, nullptr, nullptr, nullptr);
    ASSERT_NE(theirs, nullptr);
    const auto judge = cells_of<float>(theirs, GDT_Float32);
    GDALClose(theirs);
    const bool slope = what[0] == 's';
    const auto slopes = terrain::slope_raster(heights);
    double worst = 0;
    std::size_t compared = 0;
    for (int r = 1; r + 1 < heights.rows(); ++r) {
      for (int c = 1; c + 1 < heights.cols(); ++c) {
        const auto k = static_cast<std::size_t>(r) * static_cast<std::size_t>(heights.cols()) +
                       static_cast<std::size_t>(c);
        if (judge[k] == -9999) continue;
        const auto g = terrain::gradient(heights, r, c);
        if (!slope && !(terrain::slope_deg(g) >= 1)) continue;  // rounding; level: no aspect
        const double ours =
            slope ? static_cast<double>(slopes.cells()[k]) : terrain::fall_line(g).in_degrees();
        if (std::isnan(ours)) continue;
        worst =
            std::max(worst, std::abs(std::remainder(ours - static_cast<double>(judge[k]), 360.0)));
        ++compared;
      }
    }
    EXPECT_GT(compared, 65'000U);
    EXPECT_LT(worst, slope ? 1e-3 : 0.02) << what;
  }
}

TEST(RealGround, DrainageIsThePlainHeaps) {
  LODEWAY_NEEDS_SHARED(data);
  const auto heights = interlaken(data).heights;
  const auto judge = terrain::test::plain_drainage(heights);
  const auto ours = terrain::drainage(heights);
  EXPECT_EQ(ours.filled, judge.filled);
}

TEST(RealGround, MappedStreamsLieOnComputedDrainage) {
  LODEWAY_NEEDS_SHARED(data);
  const std::string sf = data + "/spearfish-sd/";
  const auto read = heights_of(sf + "sfdem.tif", "EPSG:26713");
  const auto streams = io::read_features(
      sf + "streams.shp", {read.grid, read.heights.frame(), &io::built_in_rules(), {}});
  ASSERT_TRUE(streams) << streams.error().what;
  const double cell = read.heights.frame().cell_m;
  ASSERT_EQ(cell, 30);
  const auto drainage = terrain::drainage(read.heights);
  for (const auto& [least_m2, bound] : {std::pair{0.1e6, 0.85}, {0.25e6, 0.78}}) {
    std::vector<mapdata::LineFeature> lines;
    double drained_m = 0;
    for (auto& l : terrain::stream_lines(drainage, least_m2)) {
      lines.push_back({{mapdata::Kind::stream, ""}, std::move(l.points)});
      drained_m += mapdata::length_m(lines.back().points);
    }
    const mapdata::LineIndex index(lines);
    // Every 15 m along the mapped streams; and as many places strewn evenly, for what chance gives.
    std::size_t on = 0, all = 0, on_by_chance = 0, strewn = 0;
    for (const auto& stream : streams->map.lines) {
      const mapdata::Measured line(stream.points);
      for (double at = 0; at < line.length_m(); at += 15) {
        const auto p = line.at(at);
        if (!std::isfinite(terrain::height_at(read.heights, p))) continue;
        ++all;
        on += !index.near(p, 2 * cell).empty();
      }
    }
    for (int r = 20; r < read.heights.rows() - 20; r += 5) {
      for (int c = 20; c < read.heights.cols() - 20; c += 5) {
        ++strewn;
        on_by_chance += !index.near(read.heights.frame().centre(r, c), 2 * cell).empty();
      }
    }
    const double share = static_cast<double>(on) / static_cast<double>(all),
                 chance = static_cast<double>(on_by_chance) / static_cast<double>(strewn);
    std::printf(
        "spearfish: %.1f %% of %zu places along mapped streams within 2 cells of lines that drain "
        "%.2f km2 (%.0f km of lines); of evenly strewn places %.1f %%\n",
        100 * share, all, least_m2 / 1e6, drained_m / 1000, 100 * chance);
    EXPECT_GT(all, 13'000U);
    EXPECT_GT(share, bound);
    EXPECT_LT(chance, 0.30);
  }
}

}  // namespace
}  // namespace lodeway
