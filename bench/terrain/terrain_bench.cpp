// Our terrain analysis beside GDAL's library and beside plain implementations, in one run, on the
// same 4000 x 4000 relief held in memory.
#include <benchmark/benchmark.h>
#include <gdal_alg.h>
#include <gdal_utils.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include "lodeway/terrain/contours.hpp"
#include "lodeway/terrain/drainage.hpp"
#include "lodeway/terrain/ridges.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/terrain/streams.hpp"
#include "lodeway/terrain/visibility.hpp"
#include "relief.hpp"
#include "terrain/plain_drainage.hpp"

namespace lodeway::terrain {
namespace {

constexpr int n = 4000;

const Elevation& ground() {
  static const Elevation made = bench::relief(n);
  return made;
}

GDALDatasetH gdal_ground() {
  static const GDALDatasetH made = [] {
    GDALAllRegister();
    GDALDatasetH d = GDALCreate(GDALGetDriverByName("MEM"), "", n, n, 1, GDT_Float32, nullptr);
    double transform[6] = {0, 10, 0, 10.0 * n, 0, -10};
    GDALSetGeoTransform(d, transform);
    OGRSpatialReferenceH srs = OSRNewSpatialReference(nullptr);
    OSRImportFromEPSG(srs, 32632);
    GDALSetSpatialRef(d, srs);
    OSRDestroySpatialReference(srs);
    auto copy = ground();
    if (GDALRasterIO(GDALGetRasterBand(d, 1), GF_Write, 0, 0, n, n, copy.cells().data(), n, n,
                     GDT_Float32, 0, 0) != CE_None) {
      std::abort();
    }
    return d;
  }();
  return made;
}

void slope_own(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(slope_raster(ground()));
}
BENCHMARK(slope_own)->Unit(benchmark::kMillisecond);

void slope_gdal(benchmark::State& state) {
  char* words[] = {nullptr};
  GDALDEMProcessingOptions* options = GDALDEMProcessingOptionsNew(words, nullptr);
  GDALDatasetH heights = gdal_ground();
  for (auto _ : state) {
    GDALDatasetH out =
        GDALDEMProcessing("/vsimem/slope.tif", heights, "slope", nullptr, options, nullptr);
    GDALClose(out);
  }
  GDALDEMProcessingOptionsFree(options);
}
BENCHMARK(slope_gdal)->Unit(benchmark::kMillisecond);

void contours_own(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(contours(ground(), 10));
}
BENCHMARK(contours_own)->Unit(benchmark::kMillisecond);

/// As gdal_contour does, into the format that it writes by default or into nothing but memory.
void contours_gdal(benchmark::State& state, const char* driver, const char* path) {
  GDALDatasetH heights = gdal_ground();  // made outside of the time; registers GDAL's drivers
  for (auto _ : state) {
    GDALDatasetH d = GDALCreate(GDALGetDriverByName(driver), path, 0, 0, 0, GDT_Unknown, nullptr);
    OGRLayerH layer = GDALDatasetCreateLayer(d, "lines", nullptr, wkbLineString, nullptr);
    OGRFieldDefnH id = OGR_Fld_Create("ID", OFTInteger);
    OGR_L_CreateField(layer, id, 0);
    OGR_Fld_Destroy(id);
    if (GDALContourGenerate(GDALGetRasterBand(heights, 1), 10, 0, 0, nullptr, 0, 0, layer, 0, -1,
                            nullptr, nullptr) != CE_None) {
      state.SkipWithError("GDAL");
    }
    GDALClose(d);
    if (path[0] != '\0') GDALDeleteDataset(GDALGetDriverByName(driver), path);
  }
}
BENCHMARK_CAPTURE(contours_gdal, into_memory, "Memory", "")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(contours_gdal, into_shapefile, "ESRI Shapefile", "/vsimem/contours.shp")
    ->Unit(benchmark::kMillisecond);

void fill_and_flow_own(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(drainage(ground()));
}
BENCHMARK(fill_and_flow_own)->Unit(benchmark::kMillisecond);

void fill_and_flow_plain_heap(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(test::plain_drainage(ground()));
}
BENCHMARK(fill_and_flow_plain_heap)->Unit(benchmark::kMillisecond);

void streams_own(benchmark::State& state) {
  const auto d = drainage(ground());
  for (auto _ : state) benchmark::DoNotOptimize(stream_lines(d, 50000));
}
BENCHMARK(streams_own)->Unit(benchmark::kMillisecond);

void viewshed_own(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(viewshed(ground(), {20005, 20005}));
}
BENCHMARK(viewshed_own)->Unit(benchmark::kMillisecond);

void viewshed_gdal(benchmark::State& state) {
  GDALDatasetH heights = gdal_ground();
  for (auto _ : state) {
    GDALDatasetH out = GDALViewshedGenerate(GDALGetRasterBand(heights, 1), "MEM", "", nullptr,
                                            20005, 20005, 1.6, 0, 1, 0, 2, -1, 0.87, GVM_Edge, 0,
                                            nullptr, nullptr, GVOT_NORMAL, nullptr);
    if (out == nullptr) state.SkipWithError("GDAL");
    GDALClose(out);
  }
}
BENCHMARK(viewshed_gdal)->Unit(benchmark::kMillisecond);

void ridges_own(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(ridge_lines(ground(), 100000, 30));
}
BENCHMARK(ridges_own)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lodeway::terrain

BENCHMARK_MAIN();
