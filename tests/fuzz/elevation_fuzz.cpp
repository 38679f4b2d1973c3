// A file of heights. ELEVATION_NAME: its name, which says its kind. The first byte is how much of it
// is asked for.
#include <cmath>

#include "fuzz/fuzz.hpp"
#include "lodeway/io/elevation/elevation.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 2) return 0;
  static const fuzz::File file(ELEVATION_NAME);
  fuzz::File::write(file.beside("heights.prj"),
                    "GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]],"
                    "PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]]");
  io::ElevationRequest request;
  request.files = {file.holding({reinterpret_cast<const char*>(data) + 1, size - 1})};
  if ((data[0] & 1U) != 0) request.bounds = {{-9, 54, -8.99, 54.01}};
  if ((data[0] & 2U) != 0) request.cell_m = 100;
  if ((data[0] & 4U) != 0) request.crs = "EPSG:32629";
  int looks = 0;
  const auto read = io::read_elevation(
      request, [&](double, std::string_view) { return ++looks < 100; });
  if (!read) return fuzz::must_be_a_line(read.error().what), 0;
  for (const float z : read->heights.cells())
    fuzz::must(std::isnan(z) || (z >= -12000 && z <= 9000));
  return 0;
}
