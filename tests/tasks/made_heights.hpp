#pragma once
/// Heights made for a test, where no elevation model of the data fits.
#include <string>

#include "support/support.hpp"

namespace lodeway::test {

/// A slope for where no elevation model fits: an ESRI ASCII grid on WGS 84, 0.001 degrees a cell.
inline std::string slope(const support::TemporaryFolder& scratch, double west, double south,
                         int cols, int rows) {
  std::string text = "ncols " + std::to_string(cols) + "\nnrows " + std::to_string(rows) +
                     "\nxllcorner " + std::to_string(west) + "\nyllcorner " +
                     std::to_string(south) + "\ncellsize 0.001\nNODATA_value -9999\n";
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < cols; ++c) text += std::to_string(1000 + 2 * r + c) + ".5 ";
    text += "\n";
  }
  scratch.write(
      "slope.prj",
      "GEOGCS[\"GCS_WGS_1984\",DATUM[\"D_WGS_1984\",SPHEROID[\"WGS_1984\",6378137,298.257223563]],"
      "PRIMEM[\"Greenwich\",0],UNIT[\"Degree\",0.017453292519943295]]");
  return scratch.write("slope.asc", text);
}

}  // namespace lodeway::test
