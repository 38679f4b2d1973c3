#include "lodeway/io/raster/write_raster.hpp"

#include <limits>
#include <vector>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/gdal/detail/talk.hpp"

namespace lodeway::io {

namespace {
GDALDriver* driver(const char* name) {
  gdal_ready();
  return GetGDALDriverManager()->GetDriverByName(name);
}
}  // namespace

Result<void> write_geotiff(const terrain::Raster<float>& values, const earth::MapGrid& grid,
                           const std::string& path) {
  GDALDriver* tiff = driver("GTiff");
  if (tiff == nullptr) return fail(FaultCode::io_failed, path + ": this GDAL cannot write GeoTIFF");
  GdalTalk talk;
  Beside beside(path);
  {
    const char* options[] = {"COMPRESS=DEFLATE", "PREDICTOR=3", "TILED=YES", nullptr};
    Dataset file(tiff->Create(beside.temporary().c_str(), values.cols(), values.rows(), 1,
                              GDT_Float32, const_cast<char**>(options)));
    if (!file)
      return talk.fault(FaultCode::io_failed, path, "could not be created", beside.temporary());
    const terrain::Frame& f = values.frame();
    double transform[6] = {f.west_m, f.cell_m, 0, f.north_m, 0, -f.cell_m};
    file->SetGeoTransform(transform);
    file->SetProjection(grid.wkt().c_str());
    GDALRasterBand* band = file->GetRasterBand(1);
    band->SetNoDataValue(std::numeric_limits<double>::quiet_NaN());
    const auto error =
        band->RasterIO(GF_Write, 0, 0, f.cols, f.rows, const_cast<float*>(values.cells().data()),
                       f.cols, f.rows, GDT_Float32, 0, 0);
    if (error != CE_None || talk.failed())
      return talk.fault(FaultCode::io_failed, path, "could not be written", beside.temporary());
  }
  if (talk.failed())
    return talk.fault(FaultCode::io_failed, path, "could not be written", beside.temporary());
  return beside.keep();
}

Result<void> write_picture(const terrain::Raster<Colour>& picture, const std::string& path) {
  GDALDriver *memory = driver("MEM"), *png = driver("PNG");
  if (memory == nullptr || png == nullptr)
    return fail(FaultCode::io_failed, path + ": this GDAL cannot write PNG");
  GdalTalk talk;
  const GdalSetting no_side_file("GDAL_PAM_ENABLED", "NO");
  Beside beside(path);
  const int rows = picture.rows(), cols = picture.cols();
  Dataset pixels(memory->Create("", cols, rows, 3, GDT_Byte, nullptr));
  if (!pixels) return talk.fault(FaultCode::io_failed, path, "could not be drawn");
  const auto* first = picture.cells().data()->data();
  const auto error = pixels->RasterIO(GF_Write, 0, 0, cols, rows, const_cast<std::uint8_t*>(first),
                                      cols, rows, GDT_Byte, 3, nullptr, 3, 3 * cols, 1, nullptr);
  if (error != CE_None) return talk.fault(FaultCode::io_failed, path, "could not be drawn");
  {
    Dataset file(
        png->CreateCopy(beside.temporary().c_str(), pixels.get(), 0, nullptr, nullptr, nullptr));
    if (!file || talk.failed())
      return talk.fault(FaultCode::io_failed, path, "could not be written", beside.temporary());
  }
  return beside.keep();
}

}  // namespace lodeway::io
