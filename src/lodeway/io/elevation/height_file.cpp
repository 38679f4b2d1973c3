#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <limits>

#include <fmt/format.h>

#include "lodeway/io/elevation/detail/height_file.hpp"
#include "lodeway/io/elevation/elevation.hpp"
#include "lodeway/io/gdal/detail/outside.hpp"

namespace lodeway::io {

namespace {

/// What keeps heights in one file, or with a plain file of the same name beside it.
constexpr std::array<const char*, 9> formats{"GTiff", "SRTMHGT", "AAIGrid", "DTED", "USGSDEM",
                                             "BT",    "HFA",     "GPKG",    nullptr};
constexpr float lowest_m = -12'000,
                highest_m = 9'000;  // deepest sea floor -10 935, highest top 8 849

[[noreturn]] void refuse(const std::string& what, FaultCode code = FaultCode::bad_input) {
  throw HeightRefusal{code, what};
}

/// GDAL only says "not recognized"; the size is what is wrong with most such files.
void check_hgt(const std::string& path) {
  const std::filesystem::path p(path);
  std::string ending = p.extension().string();
  std::ranges::transform(ending, ending.begin(),
                         [](char c) { return static_cast<char>(c | 0x20); });
  if (ending != ".hgt") return;
  const auto size = std::filesystem::file_size(p);
  constexpr std::uintmax_t three_seconds = 1201ULL * 1201 * 2, one_second = 3601ULL * 3601 * 2;
  if (size == three_seconds || size == one_second) return;
  refuse(fmt::format(
      "{}: expected 1201 x 1201 or 3601 x 3601 heights of 2 bytes ({} or {} bytes), got "
      "{} bytes",
      path, three_seconds, one_second, size));
}

}  // namespace

HeightFile::HeightFile(const std::string& path, const Progress& progress)
    : path_(path), name_(std::filesystem::path(path).filename().string()) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) {
    refuse(path + ": expected a file of heights, found none", FaultCode::io_failed);
  }
  check_hgt(path);
  GdalTalk talk;
  const Outside outside(path, progress);
  data_ = outside.open(GDAL_OF_RASTER, formats.data());
  if (data_ == nullptr) {
    if (outside.stopped()) refuse("stopped", FaultCode::cancelled);
    throw HeightRefusal{FaultCode::bad_input, talk.fault(FaultCode::bad_input, path,
                                                         "expected a file of heights",
                                                         as_path(path))
                                                  .error()
                                                  .what};
  }
  // What lies beside the file (its CRS) may not have been read.
  if (outside.stopped()) refuse("stopped", FaultCode::cancelled);
  by_lines_ = std::string_view(data_->GetDriverName()) == "AAIGrid";
  const int bands = data_->GetRasterCount();
  if (bands < 1) refuse(path + ": expected one band of heights, found none");
  GDALRasterBand* band = data_->GetRasterBand(1);
  const GDALDataType type = band->GetRasterDataType();
  if ((bands >= 3 && type == GDT_Byte) || band->GetColorTable() != nullptr ||
      GDALDataTypeIsComplex(type) != 0) {
    refuse(path + ": expected one band of heights, found a picture");
  }
  const OGRSpatialReference* crs = data_->GetSpatialRef();
  if (outside.stopped()) refuse("stopped", FaultCode::cancelled);
  if (crs == nullptr || crs->IsLocal() || (!crs->IsProjected() && !crs->IsGeographic())) {
    refuse(path +
           ": expected a file that says its coordinate system (CRS), found none; "
           "set it with gdal_edit.py -a_srs EPSG:n");
  }
  if (names_files(*crs)) {
    refuse(path + ": its coordinate system names files of its own, which are not opened");
  }
  crs_ = recognised(*crs);
  if (data_->GetGeoTransform(transform_) != CE_None ||
      !(std::abs(transform_[1] * transform_[5] - transform_[2] * transform_[4]) > 0)) {
    refuse(path + ": expected a file that says where its cells lie, found none");
  }
  int has = 0;
  const double no_data = band->GetNoDataValue(&has);
  if (has != 0) no_data_ = no_data;
  scale_ = band->GetScale();
  offset_ = band->GetOffset();
  read_unit();
}

void HeightFile::read_unit() {
  constexpr double foot = 0.3048, us_foot = 1200.0 / 3937.0;  // both exact by definition
  std::string unit = data_->GetRasterBand(1)->GetUnitType();
  std::ranges::transform(unit, unit.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c;
  });
  const auto is = [&](std::initializer_list<const char*> names) {
    return std::ranges::any_of(names, [&](const char* n) { return unit == n; });
  };
  double metres = 1;
  if (is({"ft", "foot", "feet", "international foot"}))
    metres = foot;
  else if (is({"us survey foot", "us-ft", "us_survey_foot", "sfoot", "ftus", "foot_us"}))
    metres = us_foot;
  else if (is({"cm", "centimetre", "centimeter"}))
    metres = 0.01;
  else if (is({"dm", "decimetre", "decimeter"}))
    metres = 0.1;
  else if (!is({"", "m", "metre", "meter", "metres", "meters", "unknown"})) {
    refuse(
        fmt::format("{}: expected heights in metres or feet, found the unit \"{}\"", path_, unit));
  }
  if (metres != 1)
    remarks_.push_back(fmt::format("{}: heights in {} turned into metres", name_, unit));
  scale_ *= metres;
  offset_ *= metres;
}

Box HeightFile::box() const {
  Box out{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(),
          -std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const int c : {0, cols()}) {
    for (const int r : {0, rows()}) {
      const double x = transform_[0] + c * transform_[1] + r * transform_[2];
      const double y = transform_[3] + c * transform_[4] + r * transform_[5];
      out = {std::min(out.west, x), std::min(out.south, y), std::max(out.east, x),
             std::max(out.north, y)};
    }
  }
  return out;
}

mapdata::Source HeightFile::source() const {
  const auto text = [&](const char* key) {
    const char* value = data_->GetMetadataItem(key);
    return std::string(value != nullptr ? value : "");
  };
  mapdata::Source out;
  out.what = "elevation";
  out.file = name_;
  out.title = text("TIFFTAG_IMAGEDESCRIPTION").substr(0, 200);
  out.attribution = text("TIFFTAG_COPYRIGHT").substr(0, 500);
  out.crs = crs_text(crs_);
  const std::string date = text("TIFFTAG_DATETIME");  // "2019:12:05 10:00:00"
  if (date.size() >= 10)
    out.date = date.substr(0, 4) + "-" + date.substr(5, 2) + "-" + date.substr(8, 2);
  return out;
}

HeightWindow HeightFile::window_of(const Box& box, int margin) const {
  double inverse[6];
  double transform[6];
  std::ranges::copy(transform_, transform);
  HeightWindow out;
  if (GDALInvGeoTransform(transform, inverse) == 0) return out;
  double c0 = 1e300, c1 = -1e300, r0 = 1e300, r1 = -1e300;
  for (const double x : {box.west, box.east}) {
    for (const double y : {box.south, box.north}) {
      const double c = inverse[0] + x * inverse[1] + y * inverse[2];
      const double r = inverse[3] + x * inverse[4] + y * inverse[5];
      c0 = std::min(c0, c), c1 = std::max(c1, c), r0 = std::min(r0, r), r1 = std::max(r1, r);
    }
  }
  const auto cut = [&](double low, double high, int size, int& first, int& count) {
    const double from = std::clamp(std::floor(low) - margin, 0.0, static_cast<double>(size));
    const double to = std::clamp(std::ceil(high) + margin, 0.0, static_cast<double>(size));
    first = static_cast<int>(from);
    count = std::max(0, static_cast<int>(to) - first);
  };
  cut(c0, c1, cols(), out.col, out.cols);
  cut(r0, r1, rows(), out.row, out.rows);
  return out;
}

void HeightFile::find_line(int row, const Progress& progress, const std::string& doing) const {
  GdalTalk talk;
  float first = 0;
  for (int r = 0; r < row; ++r) {
    if (!goes_on(progress, -1, doing)) refuse("stopped", FaultCode::cancelled);
    if (data_->GetRasterBand(1)->RasterIO(GF_Read, 0, r, 1, 1, &first, 1, 1, GDT_Float32, 0, 0,
                                          nullptr) == CE_None) {
      continue;
    }
    refuse(talk.fault(FaultCode::bad_input, path_, "could not be read whole", as_path(path_))
               .error()
               .what);
  }
}

void HeightFile::read(HeightWindow& window, const Progress& progress) const {
  const std::int64_t cells = std::int64_t{window.cols} * window.rows;
  if (cells > most_cells) {
    refuse(
        fmt::format("{}: {} of its cells would be needed, at most {}; ask for less with --bounds",
                    path_, cells, most_cells),
        FaultCode::too_large);
  }
  window.heights.resize(static_cast<std::size_t>(cells));
  GdalTalk talk;
  const Outside outside(path_, progress);
  GDALRasterBand* band = data_->GetRasterBand(1);
  constexpr float nothing = std::numeric_limits<float>::quiet_NaN();
  const bool plain = scale_ == 1 && offset_ == 0;
  const auto no_data = static_cast<float>(no_data_.value_or(std::nan("")));
  const auto width = static_cast<std::size_t>(window.cols);
  constexpr int rows_at_once = 256;
  bool beyond = false;
  const auto doing = "reading " + name_;
  if (by_lines_ && cells > 0) find_line(window.row, progress, doing);
  struct Looking {
    const Progress& progress;
    const std::string& doing;
    double from, share;
    bool stopped;
  } looking{progress, doing, 0, 1, false};
  GDALRasterIOExtraArg extra;
  INIT_RASTERIO_EXTRA_ARG(extra);
  extra.pfnProgress = [](double done, const char*, void* self) {
    auto& l = *static_cast<Looking*>(self);
    l.stopped = l.stopped || !goes_on(l.progress, l.from + l.share * done, l.doing);
    return l.stopped ? FALSE : TRUE;
  };
  extra.pProgressData = &looking;
  for (int r = 0; r < window.rows; r += rows_at_once) {
    const int count = std::min(rows_at_once, window.rows - r);
    looking.from = static_cast<double>(r) / window.rows;
    looking.share = static_cast<double>(count) / window.rows;
    if (!goes_on(progress, looking.from, doing)) refuse("stopped", FaultCode::cancelled);
    float* at = window.heights.data() + static_cast<std::size_t>(r) * width;
    if (band->RasterIO(GF_Read, window.col, window.row + r, window.cols, count, at, window.cols,
                       count, GDT_Float32, 0, 0, &extra) != CE_None) {
      if (outside.stopped() || looking.stopped) refuse("stopped", FaultCode::cancelled);
      refuse(talk.fault(FaultCode::bad_input, path_, "could not be read whole", as_path(path_))
                 .error()
                 .what);
    }
    for (float* z = at; z != at + static_cast<std::size_t>(count) * width; ++z) {
      if (*z == no_data || !std::isfinite(*z) || (!no_data_ && *z == -9999)) {
        *z = nothing;
        continue;
      }
      if (!plain) *z = static_cast<float>(static_cast<double>(*z) * scale_ + offset_);
      if (*z < lowest_m || *z > highest_m) {
        *z = nothing;
        beyond = true;
      }
    }
  }
  if (beyond) {
    remarks_.push_back(name_ + ": heights beyond -12000 to 9000 m were taken for voids");
  }
}

}  // namespace lodeway::io
