#pragma once
/// One file of heights. Internal to io/elevation.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/io/files/progress.hpp"
#include "lodeway/io/gdal/detail/crs.hpp"
#include "lodeway/io/gdal/detail/talk.hpp"
#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::io {

/// Thrown inside io/elevation, caught in read_elevation.
struct HeightRefusal {
  FaultCode code;
  std::string what;
};

/// A piece of a file's own raster, in metres, NaN where void.
struct HeightWindow {
  int col = 0, row = 0, cols = 0, rows = 0;
  std::vector<float> heights;
};

class HeightFile {
 public:
  /// Throws HeightRefusal when it holds no heights that can be placed.
  HeightFile(const std::string& path, const Progress& progress);

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const OGRSpatialReference& crs() const { return crs_; }
  [[nodiscard]] const double* transform() const { return transform_; }
  [[nodiscard]] int cols() const { return data_->GetRasterXSize(); }
  [[nodiscard]] int rows() const { return data_->GetRasterYSize(); }
  /// Are its heights whole metres by their type?
  [[nodiscard]] bool whole_metres() const {
    return GDALDataTypeIsInteger(data_->GetRasterBand(1)->GetRasterDataType()) != 0 && scale_ == 1;
  }
  [[nodiscard]] bool north_up() const { return transform_[2] == 0 && transform_[4] == 0; }
  /// The box of its outer edges, in its own system.
  [[nodiscard]] Box box() const;
  [[nodiscard]] mapdata::Source source() const;
  /// The cells that a box in the file's own system touches, with `margin` more each side, cut to
  /// the file.
  [[nodiscard]] HeightWindow window_of(const Box& box, int margin) const;
  /// Fills `window.heights`. Throws HeightRefusal when the file is cut off.
  void read(HeightWindow& window, const Progress& progress) const;
  [[nodiscard]] const std::vector<std::string>& remarks() const { return remarks_; }

 private:
  void read_unit();
  /// Reads the lines of an ASCII grid before this one, one by one: asked for a line at once, GDAL 3.6
  /// looks for every line before it again and again when the file ends sooner, for ever.
  void find_line(int row, const Progress& progress, const std::string& doing) const;
  std::string path_, name_;
  Dataset data_;
  OGRSpatialReference crs_;
  double transform_[6] = {};
  double scale_ = 1, offset_ = 0;
  std::optional<double> no_data_;
  bool by_lines_ = false;
  mutable std::vector<std::string> remarks_;
};

}  // namespace lodeway::io
