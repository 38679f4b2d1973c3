#include <algorithm>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ogrsf_frmts.h>

#include <fmt/format.h>

#include "lodeway/io/gdal/detail/outside.hpp"
#include "lodeway/io/gdal/detail/talk.hpp"
#include "lodeway/io/ground_file/detail/schema.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"

namespace lodeway::io {

namespace {

using mapdata::GridPoint;

struct Refused {
  FaultCode code;
  std::string what;
};

constexpr const char* drivers[] = {"GPKG", nullptr};
constexpr std::size_t most_letters = 50'000;  // of one text: a coordinate system, a name
constexpr double furthest_m = 1e8;            // the figures of any grid on Earth are smaller
constexpr double most_beside_m = 1e6;         // a line may run on beyond the heights, not for ever

[[noreturn]] void refuse(std::string what) { throw Refused{FaultCode::bad_input, std::move(what)}; }

/// The file while it is read.
struct Opened {
  const std::string& path;
  const Progress& progress;
  const Outside outside{path, progress};
  Dataset data{};

  /// Throws when somebody wants the reading to end.
  void go_on() const {
    if (!outside.stopped() && goes_on(progress, -1, "reading the ground")) return;
    throw Refused{FaultCode::cancelled, "stopped"};
  }
};

/// One table's rows; columns are found by name, so that a GIS may add its own or move them. Those
/// in `optional` come after `columns` and may be missing, as in files of the first days.
class Rows {
 public:
  Rows(const Opened& file, const char* table, const std::vector<std::string>& columns,
       const std::vector<std::string>& optional = {}, const walking::Box* within = nullptr)
      : file_(file), table_(table), layer_(file.data->GetLayerByName(table)) {
    if (layer_ == nullptr) refuse(fmt::format("expected a table \"{}\"", table));
    if (within != nullptr) select(*within);
    for (const std::string& c : columns) {
      places_.push_back(layer_->GetLayerDefn()->GetFieldIndex(c.c_str()));
      if (places_.back() < 0) refuse(fmt::format("{}: expected a column \"{}\"", table, c));
    }
    for (const std::string& c : optional) {
      places_.push_back(layer_->GetLayerDefn()->GetFieldIndex(c.c_str()));
    }
    layer_->ResetReading();
  }
  ~Rows() {
    row_.reset();
    if (selected_ != nullptr) file_.data->ReleaseResultSet(selected_);
  }
  Rows(const Rows&) = delete;
  Rows& operator=(const Rows&) = delete;
  bool next() {
    constexpr int rows_between = 512;
    if (count_++ % rows_between == 0) file_.go_on();
    row_.reset(layer_->GetNextFeature());
    return row_ != nullptr;
  }
  /// Empty where there is none, or no such column.
  [[nodiscard]] std::string text(int column) const {
    std::string out = at(column) < 0 ? std::string() : row_->GetFieldAsString(at(column));
    if (out.size() > most_letters) refuse_here(fmt::format("a text of {} letters", out.size()));
    return out;
  }
  [[nodiscard]] bool flag(int column) const { return row_->GetFieldAsInteger(at(column)) != 0; }
  [[nodiscard]] bool given(int column) const {
    return at(column) >= 0 && row_->IsFieldSetAndNotNull(at(column)) != 0;
  }
  [[nodiscard]] double number(int column, double least, double most) const {
    const double v = row_->GetFieldAsDouble(at(column));
    if (!given(column) || !(v >= least && v <= most)) {
      refuse_here(fmt::format("expected a number from {} to {}", least, most));
    }
    return v;
  }
  [[nodiscard]] mapdata::Kind kind(int column) const {
    const auto k = mapdata::kind_from_name(text(column));
    if (!k) refuse_here(fmt::format("the kind \"{}\" is not known", text(column)));
    return *k;
  }
  template <class Geometry>
  [[nodiscard]] const Geometry& geometry(OGRwkbGeometryType type) const {
    const OGRGeometry* g = row_->GetGeometryRef();
    if (g == nullptr || wkbFlatten(g->getGeometryType()) != type || g->IsEmpty()) {
      refuse_here(fmt::format("expected the geometry {}", OGRGeometryTypeToName(type)));
    }
    return *static_cast<const Geometry*>(g);
  }
  [[noreturn]] void refuse_here(const std::string& what) const {
    refuse(fmt::format("{}: row {}: {}", table_, row_->GetFID(), what));
  }

 private:
  [[nodiscard]] int at(int column) const { return places_[static_cast<std::size_t>(column)]; }
  /// Only rows whose own box meets this one, by the file's index and in the order of the whole;
  /// all of them where a file has no index.
  void select(const walking::Box& box) {
    if (layer_->TestCapability(OLCFastSpatialFilter) == 0) return;
    const std::string fid = layer_->GetFIDColumn(), geometry = layer_->GetGeometryColumn();
    const std::string ask = fmt::format(
        "SELECT * FROM \"{0}\" WHERE \"{1}\" IN (SELECT id FROM \"rtree_{0}_{2}\" WHERE maxx >= "
        "{3:.9f} AND minx <= {4:.9f} AND maxy >= {5:.9f} AND miny <= {6:.9f}) ORDER BY \"{1}\"",
        table_, fid, geometry, box.west_m, box.east_m, box.south_m, box.north_m);
    selected_ = file_.data->ExecuteSQL(ask.c_str(), nullptr, nullptr);
    if (selected_ != nullptr) layer_ = selected_;
  }
  const Opened& file_;
  std::int64_t count_ = 0;
  std::string table_;
  OGRLayer* layer_;
  OGRLayer* selected_ = nullptr;
  std::vector<int> places_;
  OGRFeatureUniquePtr row_;
};

struct About {
  std::string format, name, crs;
};

About read_about(const Opened& file) {
  About about;
  for (Rows rows(file, schema::about, {"key", "value"}); rows.next();) {
    const std::string key = rows.text(0);
    if (key == "format") about.format = rows.text(1);
    if (key == "name") about.name = rows.text(1);
    if (key == "crs") about.crs = rows.text(1);
  }
  const std::string expected = std::string("Lodeway ground ") + schema::version;
  if (about.format != expected) {
    refuse(fmt::format("about: expected the format \"{}\", got \"{}\"", expected, about.format));
  }
  return about;
}

std::vector<mapdata::Source> read_sources(const Opened& file) {
  std::vector<mapdata::Source> out;
  for (Rows rows(file, schema::sources,
                 {"what", "file", "title", "licence", "attribution", "crs", "date"});
       rows.next();) {
    out.push_back({rows.text(0), rows.text(1), rows.text(2), rows.text(3), rows.text(4),
                   rows.text(5), rows.text(6)});
  }
  return out;
}

mapdata::KindTable read_kinds(const Opened& file) {
  std::vector<std::string> columns{"kind", "leads", "catches", "ticks", "forbids", "speed_factor"};
  for (const char* v : schema::visibilities) columns.push_back(std::string("seen_m_") + v);
  for (const char* v : schema::visibilities) columns.push_back(std::string("recognised_") + v);
  mapdata::KindTable out;
  for (Rows rows(file, schema::kinds, columns); rows.next();) {
    mapdata::KindTraits& t = out[rows.kind(0)];
    t.leads = rows.flag(1);
    t.catches = rows.flag(2);
    t.ticks = rows.flag(3);
    t.forbids = rows.flag(4);
    t.speed_factor = rows.number(5, 1e-6, 1);
    for (int v = 0; v < mapdata::visibility_count; ++v) {
      const auto i = static_cast<std::size_t>(v);
      t.seen_from_m[i] = rows.number(6 + v, 0, 1e6);
      t.recognised[i] = rows.number(6 + mapdata::visibility_count + v, 0, 1);
    }
  }
  return out;
}

class FeatureReader {
 public:
  /// `f`: of all heights of the file.
  FeatureReader(const Opened& file, const terrain::Frame& f, const walking::Box* within)
      : file_(file), frame_(f), within_(within) {}

  mapdata::MapData read() {
    mapdata::MapData out;
    for (Rows rows(file_, schema::points, {"kind", "name", "height_m"}, {"source"}, within_);
         rows.next();) {
      const auto& p = rows.geometry<OGRPoint>(wkbPoint);
      out.points.push_back({label(rows, 3), point(rows, p.getX(), p.getY()),
                            rows.given(2) ? rows.number(2, -12'000, 9'000)
                                          : std::numeric_limits<double>::quiet_NaN()});
    }
    for (Rows rows(file_, schema::lines, {"kind", "name", "falls", "tunnel", "bridge"},
                   {"source", "strahler", "traffic"}, within_);
         rows.next();) {
      mapdata::LineFeature line{label(rows, 5),
                                curve(rows, rows.geometry<OGRLineString>(wkbLineString)),
                                mapdata::Side::none, rows.flag(3), rows.flag(4)};
      if (line.points.size() < 2) rows.refuse_here("expected a line of two points or more");
      const std::string falls = rows.text(2);
      if (falls == "left") line.falls = mapdata::Side::left;
      if (falls == "right") line.falls = mapdata::Side::right;
      if (line.label.kind == mapdata::Kind::road) {
        line.order = rows.given(7) ? traffic_number(rows.text(7)) : 0;
      } else if (rows.given(6)) {
        line.order = static_cast<unsigned char>(rows.number(6, 0, 255));
      }
      out.lines.push_back(std::move(line));
    }
    for (Rows rows(file_, schema::areas, {"kind", "name"}, {"source"}, within_); rows.next();) {
      const auto& polygon = rows.geometry<OGRPolygon>(wkbPolygon);
      mapdata::AreaFeature area{label(rows, 2), ring(rows, *polygon.getExteriorRing()), {}};
      for (int i = 0; i < polygon.getNumInteriorRings(); ++i) {
        area.holes.push_back(ring(rows, *polygon.getInteriorRing(i)));
      }
      out.areas.push_back(std::move(area));
    }
    return out;
  }

 private:
  /// A word that is not one of ours says nothing.
  static unsigned char traffic_number(std::string_view word) {
    for (unsigned char i = 1; i < std::size(schema::traffic_words); ++i) {
      if (word == schema::traffic_words[i]) return i;
    }
    return 0;
  }
  /// A source that is not one of ours is somebody's own: then the feature counts as mapped.
  static mapdata::Label label(const Rows& rows, int source) {
    mapdata::Label out{rows.kind(0), rows.text(1)};
    const std::string from = rows.text(source);
    for (const auto origin : {mapdata::Origin::from_areas, mapdata::Origin::from_relief}) {
      if (from == schema::origins[static_cast<std::size_t>(origin)]) out.origin = origin;
    }
    return out;
  }
  GridPoint point(const Rows& rows, double east, double north) {
    if (!std::isfinite(east) || !std::isfinite(north)) rows.refuse_here("expected finite numbers");
    if (!(east >= frame_.west_m - most_beside_m && east <= frame_.east_m() + most_beside_m &&
          north >= frame_.south_m() - most_beside_m && north <= frame_.north_m + most_beside_m)) {
      rows.refuse_here(fmt::format(
          "expected a place within {:.0f} km of the heights, found east {:.6g}, north {:.6g}",
          most_beside_m / 1000, east, north));
    }
    if (++count_ > schema::most_points) {
      throw Refused{FaultCode::too_large,
                    fmt::format("expected at most {} points", schema::most_points)};
    }
    return {east, north};
  }
  std::vector<GridPoint> curve(const Rows& rows, const OGRSimpleCurve& from) {
    std::vector<GridPoint> out;
    out.reserve(static_cast<std::size_t>(from.getNumPoints()));
    for (int i = 0; i < from.getNumPoints(); ++i) {
      out.push_back(point(rows, from.getX(i), from.getY(i)));
    }
    return out;
  }
  std::vector<GridPoint> ring(const Rows& rows, const OGRSimpleCurve& from) {
    auto out = curve(rows, from);
    if (out.size() > 1 && out.front() == out.back()) out.pop_back();
    if (out.size() < 3) rows.refuse_here("expected a ring of three points or more");
    return out;
  }
  const Opened& file_;
  const terrain::Frame& frame_;
  const walking::Box* within_;
  std::int64_t count_ = 0;
};

/// A raster of the file and where it lies; nothing when there is no such table.
struct Coverage {
  Dataset raster;
  terrain::Frame frame;
};
std::optional<Coverage> coverage(const Opened& file, const char* name) {
  const std::string table = std::string("TABLE=") + name;
  const char* options[] = {table.c_str(), nullptr};
  Dataset raster = file.outside.open(GDAL_OF_RASTER, drivers, options);
  file.go_on();
  if (raster == nullptr) return std::nullopt;
  double t[6];
  if (raster->GetGeoTransform(t) != CE_None || t[2] != 0 || t[4] != 0 || t[1] != -t[5] ||
      !(t[1] > 0)) {
    refuse(fmt::format("{}: expected square cells with north up", name));
  }
  if (!(std::abs(t[0]) <= furthest_m && std::abs(t[3]) <= furthest_m && t[1] <= furthest_m)) {
    refuse(
        fmt::format("{}: expected heights on Earth, found their corner at east {:.6g}, north "
                    "{:.6g}, cells of {:.6g} m",
                    name, t[0], t[3], t[1]));
  }
  const std::int64_t cols = raster->GetRasterXSize(), rows = raster->GetRasterYSize();
  if (rows * cols > schema::most_cells) {
    throw Refused{FaultCode::too_large,
                  fmt::format("{}: {} cells, at most {}", name, rows * cols, schema::most_cells)};
  }
  const terrain::Frame frame{t[0], t[3], t[1], static_cast<int>(rows), static_cast<int>(cols)};
  return Coverage{std::move(raster), frame};
}

/// The cells of `frame`, which lies on those of the coverage.
template <class Cell>
void read_cells(const Opened& file, const Coverage& from, const terrain::Frame& frame,
                GDALDataType type, std::span<Cell> cells, const char* name) {
  constexpr int rows_at_once = 256;  // of the file's tiles
  const int w = frame.cols, h = frame.rows;
  const auto cells_off = [&](double metres) {
    return static_cast<int>(std::lround(metres / frame.cell_m));
  };
  const int left = cells_off(frame.west_m - from.frame.west_m),
            top = cells_off(from.frame.north_m - frame.north_m);
  if (w == 0) return;
  for (int row = 0; row < h; row += rows_at_once) {
    file.go_on();
    const int count = std::min(rows_at_once, h - row);
    Cell* const to = cells.data() + static_cast<std::size_t>(row) * static_cast<std::size_t>(w);
    if (from.raster->GetRasterBand(1)->RasterIO(GF_Read, left, top + row, w, count, to, w, count,
                                                type, 0, 0, nullptr) != CE_None) {
      file.go_on();
      refuse(fmt::format("{}: could not be read", name));
    }
  }
}

Coverage elevation_of(const Opened& file) {
  auto from = coverage(file, schema::elevation);
  if (!from) refuse("expected a coverage \"elevation\"");
  return *std::move(from);
}

terrain::Frame within(const terrain::Frame& whole, const walking::Box* box) {
  return box == nullptr ? whole : walking::cells_of(whole, *box);
}

terrain::Elevation read_elevation(const Opened& file, const Coverage& from,
                                  const walking::Box* box) {
  terrain::Elevation out(within(from.frame, box));
  read_cells(file, from, out.frame(), GDT_Float32, out.cells(), schema::elevation);
  int has_void = 0;
  const auto nothing = static_cast<float>(from.raster->GetRasterBand(1)->GetNoDataValue(&has_void));
  for (float& z : out.cells()) {
    if ((has_void != 0 && z == nothing) || !std::isfinite(z)) {
      z = std::numeric_limits<float>::quiet_NaN();
    }
  }
  return out;
}

bool has_table(const Opened& file, const char* name) {
  const std::string ask = fmt::format("SELECT 1 FROM gpkg_contents WHERE table_name = '{}'", name);
  OGRLayer* answer = file.data->ExecuteSQL(ask.c_str(), nullptr, nullptr);
  if (answer == nullptr) return false;
  const bool found = OGRFeatureUniquePtr(answer->GetNextFeature()) != nullptr;
  file.data->ReleaseResultSet(answer);
  return found;
}

/// Empty where the file has none; what is no landform of ours is not known.
terrain::Raster<terrain::Landform> read_landforms(const Opened& file, const walking::Box* box) {
  if (!has_table(file, schema::landforms)) return {};
  const auto from = coverage(file, schema::landforms);
  if (!from) return {};
  terrain::Raster<terrain::Landform> out(within(from->frame, box));
  std::vector<unsigned char> cells(out.cells().size());
  read_cells(file, *from, out.frame(), GDT_Byte, std::span(cells), schema::landforms);
  std::ranges::transform(cells, out.cells().begin(), [](unsigned char v) {
    return v <= static_cast<unsigned char>(terrain::Landform::pit)
               ? static_cast<terrain::Landform>(v)
               : terrain::Landform::unknown;
  });
  return out;
}

GroundHead read_head(Opened& file) {
  file.data = file.outside.open(GDAL_OF_VECTOR, drivers);
  file.go_on();
  if (file.data == nullptr) refuse("expected a ground file (GeoPackage)");
  const About about = read_about(file);
  auto grid = earth::MapGrid::from_text(about.crs);
  if (!grid) throw Refused{grid.error().code, "about: crs: " + grid.error().what};
  return {about.name, std::move(*grid), {}};
}

/// All of it, or what lies in the box.
walking::Ground read_ground(Opened& file, const walking::Box* box) {
  auto head = read_head(file);
  const auto elevation = elevation_of(file);
  walking::Ground out{std::move(head.name),
                      std::move(head.grid),
                      read_elevation(file, elevation, box),
                      {},
                      {},
                      {},
                      {}};
  out.map = FeatureReader(file, elevation.frame, box).read();
  out.kinds = read_kinds(file);
  out.sources = read_sources(file);
  out.landforms = read_landforms(file, box);
  return out;
}

/// What `read` answers of the file, or what is wrong with it.
template <class Read>
auto opened(const std::string& path, const Progress& progress, Read&& read)
    -> Result<decltype(read(std::declval<Opened&>()))> {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) {
    return fail(FaultCode::io_failed, path + ": expected a ground file, found none");
  }
  GdalTalk talk;
  try {
    Opened file{path, progress};
    auto out = read(file);
    if (talk.failed())
      return talk.fault(FaultCode::bad_input, path, "could not be read whole", as_path(path));
    return out;
  } catch (const Refused& refused) {
    if (refused.code == FaultCode::cancelled) return fail(refused.code, refused.what);
    return talk.fault(refused.code, path, refused.what, as_path(path));
  } catch (const std::bad_alloc&) {
    return fail(FaultCode::too_large, path + ": does not fit in memory");
  }
}

}  // namespace

Result<walking::Ground> open_ground(const std::string& path, const Progress& progress) {
  return opened(path, progress, [](Opened& file) { return read_ground(file, nullptr); });
}

Result<GroundHead> ground_head(const std::string& path) {
  return opened(path, {}, [](Opened& file) {
    auto head = read_head(file);
    head.frame = elevation_of(file).frame;
    return head;
  });
}

Result<std::vector<earth::GridPoint>> points_called(const std::string& path,
                                                    const std::string& name) {
  return opened(path, {}, [&](Opened& file) {
    (void)read_head(file);
    std::vector<earth::GridPoint> out;
    for (Rows rows(file, schema::points, {"name"}); rows.next();) {
      if (rows.text(0) != name) continue;
      const auto& p = rows.geometry<OGRPoint>(wkbPoint);
      if (std::abs(p.getX()) > furthest_m || std::abs(p.getY()) > furthest_m)
        rows.refuse_here("expected a place on the ground");
      out.push_back({p.getX(), p.getY()});
    }
    return out;
  });
}

Result<walking::Ground> open_piece(const std::string& path, const walking::Box& box,
                                   const Progress& progress) {
  return opened(path, progress, [&](Opened& file) { return read_ground(file, &box); });
}

}  // namespace lodeway::io
