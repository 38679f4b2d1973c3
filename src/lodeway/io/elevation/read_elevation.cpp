#include <algorithm>
#include <cmath>
#include <limits>
#include <list>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <gdal_utils.h>

#include "lodeway/io/elevation/detail/height_file.hpp"
#include "lodeway/io/elevation/elevation.hpp"

namespace lodeway::io {

namespace {

[[noreturn]] void refuse(std::string what, FaultCode code = FaultCode::bad_input) {
  throw HeightRefusal{code, std::move(what)};
}

constexpr int most_degrees = 12;  // of longitude in one flat grid

class Importer {
 public:
  Importer(const ElevationRequest& request, const Progress& progress)
      : request_(request), progress_(progress) {
    for (const std::string& path : request.files) files_.emplace_back(path, progress);
  }

  ElevationRead run() {
    find_degrees();
    choose_grid();
    choose_frame();
    out_.heights = terrain::Elevation(frame_, std::numeric_limits<float>::quiet_NaN());
    for (const HeightFile& file : files_) {
      read(file);
      out_.sources.push_back(file.source());
      out_.whole_metres = out_.whole_metres || file.whole_metres();
      out_.remarks.insert(out_.remarks.end(), file.remarks().begin(), file.remarks().end());
    }
    if (std::ranges::all_of(out_.heights.cells(), [](float z) { return std::isnan(z); })) {
      refuse(files_.front().path() + ": expected heights, found only voids" +
             (request_.bounds ? " within the bounds" + lies_words(files_.front()) : ""));
    }
    return std::move(out_);
  }

 private:
  /// "; it lies between 44.31 and 44.50 north, -103.87 and -103.63 east"
  [[nodiscard]] static std::string lies_words(const HeightFile& file) {
    const auto t = transformation(file.crs(), wgs84(), std::nullopt);
    const auto box = t ? box_through(*t, file.box()) : std::nullopt;
    if (!box) return {};
    return fmt::format("; the file lies between {:.2f} and {:.2f} north, {:.2f} and {:.2f} east",
                       box->south, box->north, box->west, box->east);
  }
  [[nodiscard]] bool bounds_in_degrees() const {
    const auto& b = *request_.bounds;
    return std::abs(b[0]) <= 180 && std::abs(b[2]) <= 180 && std::abs(b[1]) <= 90 &&
           std::abs(b[3]) <= 90;
  }

  /// Where it all lies, in degrees: chooses the zone and the datum shifts.
  void find_degrees() {
    if (request_.bounds) {
      const auto& b = *request_.bounds;
      // In degrees west may be the greater: then the 180th meridian lies between, if not the Earth.
      const bool round = bounds_in_degrees() && b[0] - b[2] > 180;
      if (!((b[0] < b[2] || round) && b[1] < b[3])) {
        refuse(fmt::format("bounds: expected west < east and south < north, got {},{},{},{}", b[0],
                           b[1], b[2], b[3]));
      }
      if (bounds_in_degrees()) {
        degrees_ = turned_near({b[0], b[1], b[2], b[3]}, b[0]);
        if (degrees_.east - degrees_.west > most_degrees) {
          refuse(fmt::format("bounds: expected at most {} degrees of longitude, got {}: one flat "
                             "grid cannot hold that",
                             most_degrees, degrees_.east - degrees_.west),
                 FaultCode::too_large);
        }
        return;
      }
      if (request_.crs.empty()) {
        refuse("bounds: metres were given, so the grid must be named too (--crs EPSG:n)");
      }
    }
    bool first = true;
    for (const HeightFile& file : files_) {
      const auto t = transformation(file.crs(), wgs84(), std::nullopt);
      const auto box = t ? box_through(*t, file.box()) : std::nullopt;
      if (!box) refuse(file.path() + ": its coordinates cannot be turned into degrees");
      degrees_ =
          first ? turned_near(*box, box->west) : degrees_.joined(turned_near(*box, degrees_.west));
      first = false;
    }
    if (degrees_.east - degrees_.west > most_degrees || degrees_.west > degrees_.east) {
      refuse(fmt::format("the files lie more than {} degrees of longitude apart: one flat grid "
                         "cannot hold that; ask for less with --bounds",
                         most_degrees),
             FaultCode::too_large);
    }
  }

  void choose_grid() {
    const earth::Geographic centre{(degrees_.south + degrees_.north) / 2,
                                   std::remainder((degrees_.west + degrees_.east) / 2, 360)};
    auto grid = request_.crs.empty() ? earth::MapGrid::utm_at(centre)
                                     : earth::MapGrid::from_text(request_.crs);
    if (!grid) throw HeightRefusal{grid.error().code, "crs: " + grid.error().what};
    out_.grid = std::move(*grid);
    crs_ = crs_of(out_.grid);
  }

  /// Are two cells the same, to a thousandth of a cell over the whole file?
  [[nodiscard]] static bool same_cell(const HeightFile& file, double a, double b) {
    return std::abs(a - b) * std::max(file.cols(), file.rows()) < 1e-3 * b;
  }
  /// Same system, square cells, north up: its cells may be taken over as they are.
  [[nodiscard]] bool plain(const HeightFile& file) const {
    const double* t = file.transform();
    return file.north_up() && t[1] > 0 && same_cell(file, t[1], -t[5]) &&
           file.crs().IsSame(&crs_) != 0;
  }

  /// The file's cell in metres of the ground.
  [[nodiscard]] double cell_of(const HeightFile& file) const {
    if (plain(file)) {  // 25.0000000457, as some program wrote it, is 25
      const double own = file.transform()[1], even = std::round(own * 1000) / 1000;
      return same_cell(file, own, even) ? even : own;
    }
    const auto t = transformation(file.crs(), crs_, degrees_);
    const double* f = file.transform();
    const double c = file.cols() / 2.0, r = file.rows() / 2.0;
    const auto at = [&](double col, double row) {
      return std::pair{f[0] + col * f[1] + row * f[2], f[3] + col * f[4] + row * f[5]};
    };
    double x[3], y[3];  // the middle, a column further, a row further
    std::tie(x[0], y[0]) = at(c, r);
    std::tie(x[1], y[1]) = at(c + 1, r);
    std::tie(x[2], y[2]) = at(c, r + 1);
    if (!t || t->Transform(3, x, y) == 0) {
      refuse(file.path() + ": cannot be brought into the grid " + out_.grid.name());
    }
    const double cell =
        std::sqrt(std::abs((x[1] - x[0]) * (y[2] - y[0]) - (x[2] - x[0]) * (y[1] - y[0])));
    const double step = std::pow(10, std::floor(std::log10(cell)) - 1);
    return std::max(1.0, std::round(cell / step)) * step;  // two figures
  }

  /// Pieces that lie far apart would make one large ground of little but void: that is said before
  /// the work, with the files of each piece. `boxes`: of the files in their order.
  void refuse_far_apart(const std::vector<Box>& boxes, const Box& all, double cell) const {
    constexpr double least_share = 0.1, many_cells = 4e6;  // *practice*
    const auto area = [](const Box& b) { return (b.east - b.west) * (b.north - b.south); };
    double held = 0;
    for (const Box& b : boxes) held += area(b);
    if (held >= least_share * area(all) || area(all) / (cell * cell) < many_cells) return;
    std::vector<std::size_t> piece(boxes.size());  // by file; those that touch are one
    for (std::size_t i = 0; i < boxes.size(); ++i) piece[i] = i;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        const Box &a = boxes[i], &b = boxes[k];
        if (a.west > b.east + cell || b.west > a.east + cell || a.south > b.north + cell ||
            b.south > a.north + cell || piece[i] == piece[k])
          continue;
        std::ranges::replace(piece, piece[i], piece[k]);
      }
    }
    std::vector<std::string> pieces;
    for (std::size_t first = 0; first < boxes.size(); ++first) {
      std::string names;
      std::size_t file = 0;
      for (const HeightFile& f : files_) {
        if (piece[file++] == piece[first]) names += (names.empty() ? "" : ", ") + f.path();
      }
      if (std::ranges::find(pieces, names) == pieces.end()) pieces.push_back(std::move(names));
    }
    if (pieces.size() < 2) return;
    refuse(
        fmt::format("elevation: the files lie in {} pieces far apart, so that of one ground "
                    "{:.0f} in 100 cells at most would have a height; make a ground of each: {}",
                    pieces.size(), std::ceil(100 * held / area(all)), fmt::join(pieces, " | ")));
  }

  void choose_frame() {
    double cell = request_.cell_m;
    if (!(cell > 0)) {
      cell = std::numeric_limits<double>::infinity();
      for (const HeightFile& file : files_) cell = std::min(cell, cell_of(file));
    }
    std::optional<Box> box;
    std::vector<Box> boxes;  // of the files, where no bounds are given
    double east_phase = 0, north_phase = 0;
    for (const HeightFile& file : files_) {
      if (plain(file) && same_cell(file, file.transform()[1], cell)) {
        east_phase = file.transform()[0];
        north_phase = file.transform()[3];
        break;
      }
    }
    if (request_.bounds && !bounds_in_degrees()) {
      const auto& b = *request_.bounds;
      box = Box{b[0], b[1], b[2], b[3]};
    } else if (request_.bounds) {
      const auto t = transformation(wgs84(), crs_, degrees_);
      box = t ? box_through(*t, degrees_) : std::nullopt;
      if (!box) refuse("bounds: cannot be brought into the grid " + out_.grid.name());
    } else {
      for (const HeightFile& file : files_) {
        const auto t = transformation(file.crs(), crs_, degrees_);
        const auto of_file = plain(file) ? file.box()
                             : t         ? box_through(*t, file.box())
                                         : std::nullopt;
        if (!of_file) refuse(file.path() + ": cannot be brought into the grid " + out_.grid.name());
        box = box ? box->joined(*of_file) : *of_file;
        boxes.push_back(*of_file);
      }
      refuse_far_apart(boxes, *box, cell);
    }
    // Whole cells from the phase, outwards; a thousandth of a cell over is rounding, not a cell
    // more.
    constexpr double slack = 1e-3;
    const double c0 = std::floor((box->west - east_phase) / cell + slack);
    const double c1 = std::ceil((box->east - east_phase) / cell - slack);
    const double r0 = std::floor((north_phase - box->north) / cell + slack);
    const double r1 = std::ceil((north_phase - box->south) / cell - slack);
    const double cells = std::max(1.0, c1 - c0) * std::max(1.0, r1 - r0);
    if (!(cells <= static_cast<double>(most_cells))) {
      refuse(
          fmt::format("the ground would have {:.0f} cells of {} m, at most {}; ask for less with "
                      "--bounds W,S,E,N or for larger cells with --cell",
                      cells, cell, most_cells),
          FaultCode::too_large);
    }
    frame_ = {east_phase + c0 * cell, north_phase - r0 * cell, cell,
              std::max(1, static_cast<int>(r1 - r0)), std::max(1, static_cast<int>(c1 - c0))};
  }

  void read(const HeightFile& file) {
    const Box target{frame_.west_m, frame_.south_m(), frame_.east_m(), frame_.north_m};
    if (plain(file) && same_cell(file, file.transform()[1], frame_.cell_m)) {
      const double c = (file.transform()[0] - frame_.west_m) / frame_.cell_m;
      const double r = (frame_.north_m - file.transform()[3]) / frame_.cell_m;
      // Farther off than this nothing of it lies in the ground, and places are no whole numbers.
      constexpr double most = 1e9;
      const auto whole = [&](double x) { return std::abs(x) < most && std::abs(x - std::round(x)) < 1e-3; };
      if (whole(c) && whole(r)) {
        return copy(file, target, static_cast<int>(std::round(r)), static_cast<int>(std::round(c)));
      }
    }
    warp(file, target);
  }

  void put(int row, int col, float z) {
    float& cell = out_.heights[row, col];
    if (std::isnan(cell)) cell = z;
  }

  void copy(const HeightFile& file, const Box& target, int row, int col) {
    HeightWindow w = file.window_of(target, 0);
    file.read(w, progress_);
    const float* z = w.heights.data();
    for (int r = 0; r < w.rows; ++r) {
      for (int c = 0; c < w.cols; ++c, ++z) {
        const int to_row = row + w.row + r, to_col = col + w.col + c;
        if (frame_.holds(to_row, to_col)) put(to_row, to_col, *z);
      }
    }
  }

  static Dataset in_memory(float* data, int cols, int rows, const double* transform,
                           const OGRSpatialReference& crs) {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("MEM");
    Dataset out(driver->Create("", cols, rows, 0, GDT_Float32, nullptr));
    char text[64] = {};
    CPLPrintPointer(text, data, sizeof text - 1);
    CPLStringList options;
    options.SetNameValue("DATAPOINTER", text);
    double t[6];
    std::copy_n(transform, 6, t);
    if (out->AddBand(GDT_Float32, options.List()) != CE_None ||
        out->SetGeoTransform(t) != CE_None || out->SetSpatialRef(&crs) != CE_None ||
        out->GetRasterBand(1)->SetNoDataValue(std::nan("")) != CE_None) {
      refuse("heights could not be laid out in memory", FaultCode::too_large);
    }
    return out;
  }

  void warp(const HeightFile& file, const Box& target) {
    const auto back = transformation(crs_, file.crs(), degrees_);
    auto box = back ? box_through(*back, target) : std::nullopt;
    if (!box) refuse(file.path() + ": cannot be brought into the grid " + out_.grid.name());
    if (file.crs().IsGeographic() != 0) {
      const Box own = file.box();
      box = turned_near(*box, (own.west + own.east) / 2);
    }
    HeightWindow w = file.window_of(*box, 4);
    if (w.cols == 0 || w.rows == 0) return;
    file.read(w, progress_);
    const double* f = file.transform();
    const double from_transform[] = {f[0] + w.col * f[1] + w.row * f[2], f[1], f[2],
                                     f[3] + w.col * f[4] + w.row * f[5], f[4], f[5]};
    warp_window(file, w, from_transform);
    // Degrees are asked for within -180 to 180: what a file holds beyond is laid there once more.
    if (file.crs().IsGeographic() == 0) return;
    for (const double turn : {-360.0, 360.0}) {
      const double west = from_transform[0] + turn, east = west + w.cols * f[1];
      if (west >= 180 || east <= -180) continue;
      std::vector<double> turned(from_transform, from_transform + 6);
      turned[0] = west;
      warp_window(file, w, turned.data());
    }
  }

  /// Brings a window of a file, laid out by `from_transform`, into the cells that are still void.
  void warp_window(const HeightFile& file, HeightWindow& w, const double* from_transform) {
    const double to_transform[] = {frame_.west_m, frame_.cell_m, 0, frame_.north_m, 0,
                                   -frame_.cell_m};
    GdalTalk talk;
    std::vector<float> heights(frame_.size(), std::numeric_limits<float>::quiet_NaN());
    const Dataset from = in_memory(w.heights.data(), w.cols, w.rows, from_transform, file.crs());
    const Dataset to = in_memory(heights.data(), frame_.cols, frame_.rows, to_transform, crs_);
    const Box around = wrapped(degrees_);
    const std::string area = fmt::format("AREA_OF_INTEREST={},{},{},{}", around.west, around.south,
                                         around.east, around.north);
    CPLStringList words;
    for (const char* word : {"-r", "bilinear", "-et", "0.01", "-srcnodata", "nan", "-dstnodata",
                             "nan", "-wm", "256", "-to", area.c_str()}) {
      words.AddString(word);
    }
    if (frame_.cell_m <
        2 * cell_of(file)) {  // plain bilinear; GDAL's wider kernel leans by 0.05 cell
      for (const char* word : {"-wo", "XSCALE=1", "-wo", "YSCALE=1"}) words.AddString(word);
    }
    const std::unique_ptr<GDALWarpAppOptions, decltype(&GDALWarpAppOptionsFree)> options(
        GDALWarpAppOptionsNew(words.List(), nullptr), &GDALWarpAppOptionsFree);
    const auto hear = [](double done, const char*, void* self) {
      const auto& importer = *static_cast<Importer*>(self);
      return goes_on(importer.progress_, done, "bringing the heights into the grid") ? TRUE : FALSE;
    };
    GDALWarpAppOptionsSetProgress(options.get(), hear, this);
    GDALDatasetH source = GDALDataset::ToHandle(from.get());
    int wrong_use = 0;
    const auto* done =
        GDALWarp(nullptr, GDALDataset::ToHandle(to.get()), 1, &source, options.get(), &wrong_use);
    if (!goes_on(progress_, 1, "bringing the heights into the grid")) {
      refuse("stopped", FaultCode::cancelled);
    }
    if (done == nullptr || talk.failed()) {
      refuse(talk.fault(FaultCode::bad_input, file.path(), "cannot be brought into the grid")
                 .error()
                 .what);
    }
    to->FlushCache(false);
    const auto cells = out_.heights.cells();
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (std::isnan(cells[i])) cells[i] = heights[i];
    }
  }

  const ElevationRequest& request_;
  const Progress& progress_;
  std::list<HeightFile> files_;
  Box degrees_;
  OGRSpatialReference crs_;
  terrain::Frame frame_;
  ElevationRead out_;
};

}  // namespace

Result<ElevationRead> read_elevation(const ElevationRequest& request, const Progress& progress) {
  if (request.files.empty()) return fail(FaultCode::bad_input, "elevation: expected a file");
  if (request.cell_m < 0 || (request.cell_m > 0 && request.cell_m < 0.1) ||
      !(request.cell_m <= 1000)) {
    return fail(FaultCode::bad_input,
                fmt::format("cell: expected 0.1 to 1000 m, got {}", request.cell_m));
  }
  gdal_ready();
  try {
    return Importer(request, progress).run();
  } catch (const HeightRefusal& refusal) {
    return fail(refusal.code, refusal.what);
  } catch (const std::bad_alloc&) {
    return fail(FaultCode::too_large,
                "the heights do not fit in memory; ask for less with --bounds "
                "or for larger cells with --cell");
  }
}

}  // namespace lodeway::io
