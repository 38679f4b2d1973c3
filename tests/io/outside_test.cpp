// A file from outside opens nothing but itself: no address, no other file, no query without end.
#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sqlite3.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <filesystem>

#include <fmt/format.h>
#include <gdal_priv.h>
#include <gtest/gtest.h>
#include <ogrsf_frmts.h>

#include "lodeway/io/elevation/elevation.hpp"
#include "lodeway/io/gdal/detail/outside.hpp"
#include "lodeway/io/gpx/gpx.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/osm/osm.hpp"
#include "lodeway/io/vector/features.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;
using Clock = std::chrono::steady_clock;

/// Hears on this machine whoever knocks.
class Listener {
 public:
  Listener() {
    socket_ = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    auto* const plain = reinterpret_cast<sockaddr*>(&address);
    EXPECT_EQ(bind(socket_, plain, size), 0);
    EXPECT_EQ(listen(socket_, 100), 0);
    EXPECT_EQ(getsockname(socket_, plain, &size), 0);
    port_ = ntohs(address.sin_port);
  }
  ~Listener() { close(socket_); }
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;
  [[nodiscard]] std::string url(const std::string& name) const {
    return fmt::format("http://127.0.0.1:{}/{}", port_, name);
  }
  /// Has anybody knocked since it was last asked? Whoever has is hung up on. On this machine a call
  /// is in the queue before the caller goes on.
  [[nodiscard]] bool heard() const {
    bool any = false;
    for (pollfd p{socket_, POLLIN, 0}; poll(&p, 1, 0) == 1;) {
      close(accept(socket_, nullptr, nullptr));
      any = true;
    }
    return any;
  }
  void knock() const {
    const int line = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port_));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    EXPECT_EQ(connect(line, reinterpret_cast<sockaddr*>(&address), sizeof address), 0);
    close(line);
  }

 private:
  int socket_ = -1, port_ = 0;
};

io::FeatureRequest here() {
  const auto grid = earth::MapGrid::from_text("EPSG:32632").value();
  return {grid, {500'000, 5'300'000, 10, 1000, 1000}, &io::built_in_rules(), {}};
}

/// Whatever the readers make of it; what counts is what they do meanwhile.
void read_every_way(const std::string& path) {
  (void)io::read_elevation({{path}, "", 0, {}});
  (void)io::read_features(path, here());
  (void)io::open_ground(path);
  (void)io::read_gpx(path);
  if (io::is_osm(path)) (void)io::read_osm(path, here());
}

void sql(const std::string& path, const std::string& text) {
  sqlite3* db = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &db), SQLITE_OK);
  sqlite3_db_config(db, SQLITE_DBCONFIG_DEFENSIVE, 0, nullptr);
  char* why = nullptr;
  EXPECT_EQ(sqlite3_exec(db, text.c_str(), nullptr, nullptr, &why), SQLITE_OK)
      << (why != nullptr ? why : "");
  sqlite3_close(db);
}

/// A small GeoPackage with one line of a path, by GDAL.
std::string made_features(const std::string& path, const char* driver = "GPKG") {
  io::gdal_ready();
  auto* data = GetGDALDriverManager()->GetDriverByName(driver)->Create(path.c_str(), 0, 0, 0,
                                                                       GDT_Unknown, nullptr);
  OGRSpatialReference crs;
  crs.importFromEPSG(32632);
  auto* layer = data->CreateLayer("paths", &crs, wkbLineString, nullptr);
  OGRFieldDefn highway("highway", OFTString);
  EXPECT_EQ(layer->CreateField(&highway), OGRERR_NONE);
  OGRFeature feature(layer->GetLayerDefn());
  feature.SetField("highway", "path");
  OGRLineString line;
  line.addPoint(501'000, 5'295'000);
  line.addPoint(502'000, 5'296'000);
  feature.SetGeometry(&line);
  EXPECT_EQ(layer->CreateFeature(&feature), OGRERR_NONE);
  GDALClose(data);
  return path;
}

std::string made_heights(const std::string& path, const char* driver = "GTiff", bool crs = true) {
  io::gdal_ready();
  auto* data =
      GetGDALDriverManager()->GetDriverByName(driver)->Create(path.c_str(), 4, 3, 1, GDT_Float32,
                                                              nullptr);
  double t[] = {600'000, 10, 0, 5'200'000, 0, -10};
  data->SetGeoTransform(t);
  OGRSpatialReference s;
  s.importFromEPSG(32632);
  if (crs) data->SetSpatialRef(&s);
  float z[12] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};
  EXPECT_EQ(data->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, 4, 3, z, 4, 3, GDT_Float32, 0, 0,
                                             nullptr),
            CE_None);
  GDALClose(data);
  return path;
}

std::string virtual_raster(const std::string& source) {
  return fmt::format(
      R"(<VRTDataset rasterXSize="4" rasterYSize="3"><SRS>EPSG:32632</SRS>)"
      R"(<GeoTransform>600000,10,0,5200000,0,-10</GeoTransform>)"
      R"(<VRTRasterBand dataType="Float32" band="1"><SimpleSource>)"
      R"(<SourceFilename relativeToVRT="0">{}</SourceFilename><SourceBand>1</SourceBand>)"
      R"(</SimpleSource></VRTRasterBand></VRTDataset>)",
      source);
}
std::string virtual_features(const std::string& source) {
  return fmt::format(
      R"(<OGRVRTDataSource><OGRVRTLayer name="paths"><SrcDataSource>{}</SrcDataSource>)"
      R"(</OGRVRTLayer></OGRVRTDataSource>)",
      source);
}

constexpr const char* endings[] = {".tif", ".tiff", ".hgt", ".asc",     ".dem",  ".bt",
                                   ".dt1", ".dt2",  ".img", ".geojson", ".json", ".shp",
                                   ".gpkg", ".gpx", ".osm", ".osm.pbf", ".vrt",  ".xml"};

TEST(Outside, no_address_in_a_file_is_ever_asked) {
  const Listener listener;
  listener.knock();
  ASSERT_TRUE(listener.heard()) << "the listener itself must hear";
  const support::TemporaryFolder scratch;
  const auto far = listener.url("dem.tif"), curl = "/vsicurl/" + far;
  const std::string contents[] = {
      virtual_raster(curl),
      virtual_raster(far),
      virtual_features("/vsicurl/" + listener.url("paths.geojson")),
      virtual_features(listener.url("paths.geojson")),
      fmt::format(R"(<GDAL_WMS><Service name="TMS"><ServerUrl>{}</ServerUrl></Service>)"
                  R"(<DataWindow><SizeX>4</SizeX><SizeY>3</SizeY></DataWindow></GDAL_WMS>)",
                  listener.url("${z}/${x}/${y}.png")),
      fmt::format(R"(<GDAL_WMTS><GetCapabilitiesUrl>{}</GetCapabilitiesUrl></GDAL_WMTS>)", far),
      fmt::format(R"(<WCS_GDAL><ServiceURL>{}</ServiceURL><CoverageName>a</CoverageName></WCS_GDAL>)",
                  far),
      fmt::format(R"(<OGRWFSDataSource><URL>{}</URL></OGRWFSDataSource>)", far),
      fmt::format(R"(<!DOCTYPE gpx [<!ENTITY far SYSTEM "{}">]><gpx version="1.1"><wpt lat="47" )"
                  R"(lon="9"><name>&far;</name></wpt></gpx>)",
                  far),
      fmt::format(R"(<!DOCTYPE osm SYSTEM "{}"><osm version="0.6"></osm>)", far),
      fmt::format(R"({{"type":"FeatureCollection","crs":{{"type":"link","properties":{{"href":"{}",)"
                  R"("type":"ogcwkt"}}}},"features":[{{"type":"Feature","properties":{{"highway":)"
                  R"("path"}},"geometry":{{"type":"LineString","coordinates":[[9,47],[9.1,47]]}}}}]}})",
                  far),
      fmt::format(R"({{"type":"FeatureCollection","crs":{{"type":"url","properties":{{"url":"{}"}}}},)"
                  R"("features":[{{"type":"Feature","properties":{{}},"geometry":null}}]}})",
                  far),
      R"({"stac_version":"1.0.0","type":"FeatureCollection","features":[],"links":[{"rel":"next","href":")" +
          far + "\"}]}",
      far,
      curl + "\n",
  };
  for (const auto& content : contents) {
    for (const char* ending : endings) {
      read_every_way(scratch.write(std::string("a") + ending, content));
      EXPECT_FALSE(listener.heard()) << ending << ": " << content;
    }
    std::filesystem::remove_all(scratch.path());
    std::filesystem::create_directory(scratch.path());
  }
  for (const std::string& name :
       {far, curl, "GeoJSON:" + far, "/vsizip//vsicurl/" + far, std::string("/vsis3/a/b.tif"),
        "WMS:" + far, "GTIFF_DIR:1:" + curl}) {
    read_every_way(name);
    EXPECT_FALSE(listener.heard()) << name;
  }
}

TEST(Outside, no_address_beside_a_file_is_ever_asked) {
  const Listener listener;
  const support::TemporaryFolder scratch;
  const auto far = listener.url("crs.wkt");
  for (const auto& text : {far, "/vsicurl/" + far, virtual_raster("/vsicurl/" + far)}) {
    made_heights(scratch / "t.tif");
    made_features(scratch / "s.shp", "ESRI Shapefile");
    made_features(scratch / "f.gpkg");
    made_heights(scratch / "b.bt", "BT");
    scratch.write("a.asc", "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 10\n1 2\n3 4\n");
    for (const char* name : {"t.tif.ovr", "t.tif.msk", "t.tif.aux.xml", "t.aux", "t.tfw", "t.prj",
                             "s.prj", "s.cpg", "s.qix", "s.shp.xml", "b.prj", "a.prj",
                             "a.asc.aux.xml", "a.aux", "f.gpkg.aux.xml"}) {
      scratch.write(name, text);
    }
    sql(scratch / "f.gpkg", "UPDATE gpkg_spatial_ref_sys SET definition = '" + far +
                                "', organization = 'none' WHERE srs_id = 32632");
    for (const char* name : {"t.tif", "s.shp", "f.gpkg", "b.bt", "a.asc"}) {
      read_every_way(scratch / name);
      EXPECT_FALSE(listener.heard()) << name << " beside " << text;
    }
  }
}

TEST(Outside, no_other_file_is_read) {
  const support::TemporaryFolder scratch;
  const auto secret = made_heights(scratch / "secret.tif");
  ASSERT_TRUE(io::read_elevation({{secret}, "", 0, {}}));
  for (const char* ending : {".tif", ".asc", ".img", ".vrt", ".xml"}) {
    const auto path = scratch.write(std::string("a") + ending, virtual_raster(secret));
    const auto read = io::read_elevation({{path}, "", 0, {}});
    ASSERT_FALSE(read) << ending;
    EXPECT_NE(read.error().what.find("expected a file of heights"), std::string::npos);
  }
  const auto paths = made_features(scratch / "secret.gpkg");
  ASSERT_TRUE(io::read_features(paths, here()));
  EXPECT_FALSE(io::read_features(scratch.write("a.geojson", virtual_features(paths)), here()));
  // what says where a picture lies may come from the file itself, not from somebody's notes on it
  const auto bare = made_heights(scratch / "bare.tif", "GTiff", false);
  scratch.write("bare.tif.aux.xml", "<PAMDataset><SRS>EPSG:32632</SRS></PAMDataset>");
  const auto read = io::read_elevation({{bare}, "", 0, {}});
  ASSERT_FALSE(read);
  EXPECT_NE(read.error().what.find("coordinate system"), std::string::npos) << read.error().what;
}

TEST(Outside, a_coordinate_system_names_no_files) {
  for (const char* text :
       {"+proj=utm +zone=32 +ellps=bessel +nadgrids=/etc/passwd +units=m",
        "+proj=utm +zone=32 +ellps=GRS80 +geoidgrids=/dev/stdin", "+init=/tmp/list:1"}) {
    const auto grid = earth::MapGrid::from_text(text);
    ASSERT_FALSE(grid) << text;
    EXPECT_NE(grid.error().what.find("names no files"), std::string::npos) << grid.error().what;
  }
  EXPECT_TRUE(earth::MapGrid::from_text("+proj=utm +zone=32 +ellps=GRS80 +units=m"));
}

TEST(Outside, what_belongs_to_a_format_is_read) {
  const support::TemporaryFolder scratch;
  EXPECT_EQ(io::read_features(made_features(scratch / "s.shp", "ESRI Shapefile"), here())
                .value()
                .map.lines.size(),
            1U);
  for (const auto& [name, driver] : {std::pair{"a.tif", "GTiff"}, {"a.bt", "BT"}, {"a.img", "HFA"}})
    EXPECT_TRUE(io::read_elevation({{made_heights(scratch / name, driver)}, "", 0, {}})) << name;
  scratch.write("g.asc", "ncols 2\nnrows 2\nxllcorner 500000\nyllcorner 5200000\ncellsize 10\n1 2\n3 4\n");
  OGRSpatialReference utm;
  utm.importFromEPSG(32632);
  char* wkt = nullptr;
  utm.exportToWkt(&wkt);
  scratch.write("g.prj", wkt);
  CPLFree(wkt);
  const auto grid = io::read_elevation({{scratch / "g.asc"}, "", 0, {}});
  ASSERT_TRUE(grid) << grid.error().what;
  EXPECT_EQ(grid->heights.cells().size(), 4U);
}

constexpr const char* endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) ";

/// Refused by all that read GeoPackages, soon, in one line with the word.
void expect_refused_soon(const std::string& path, const std::string& word) {
  const auto begun = Clock::now();
  const auto heights = io::read_elevation({{path}, "", 0, {}});
  const auto features = io::read_features(path, here());
  const auto ground = io::open_ground(path);
  EXPECT_LT(Clock::now() - begun, std::chrono::seconds(5)) << path;
  ASSERT_FALSE(heights);
  ASSERT_FALSE(features);
  ASSERT_FALSE(ground);
  for (const auto* what :
       {&heights.error().what, &features.error().what, &ground.error().what}) {
    EXPECT_NE(what->find(word), std::string::npos) << *what;
    EXPECT_EQ(what->find('\n'), std::string::npos);
  }
}

TEST(Outside, views_and_what_is_like_them_are_refused) {
  const support::TemporaryFolder scratch;
  const auto path = scratch / "v.gpkg";
  const auto changed = [&](const std::string& text) {
    std::filesystem::remove(path);
    made_features(path);
    sql(path, text);
  };
  changed(std::string("ALTER TABLE gpkg_contents RENAME TO kept; CREATE VIEW gpkg_contents AS ") +
          endless + "SELECT i AS table_name, 'features' AS data_type, i AS identifier FROM n");
  expect_refused_soon(path, "a view or the like: gpkg_contents");
  // the table of tables lies: SQLite itself goes by the words alone
  changed(std::string("CREATE VIEW w AS ") + endless + "SELECT i FROM n; " +
          "PRAGMA writable_schema=ON; UPDATE sqlite_master SET type='table', rootpage=2 "
          "WHERE name='w'");
  expect_refused_soon(path, "tables");  // whichever of the two SQLite or we see first
  changed("CREATE VIRTUAL TABLE words USING fts5(a)");
  expect_refused_soon(path, "a view or the like: words");
  changed("CREATE TABLE sums(a, b GENERATED ALWAYS AS (hex(zeroblob(a))) VIRTUAL)");
  expect_refused_soon(path, "a computed one: sums.b");
  std::string many;
  for (int i = 0; i < 1200; ++i) many += fmt::format("CREATE TABLE t{}(a);", i);
  changed("BEGIN;" + many + "COMMIT");
  expect_refused_soon(path, "at most 1000 tables");
}

TEST(Outside, a_question_without_end_ends_by_its_budget_or_when_asked_to) {
  const support::TemporaryFolder scratch;
  const auto path = scratch.write("any.gpkg", "");
  const auto asked = [&](const io::Progress& progress) {
    const io::Outside outside(path, progress);
    sqlite3* db = nullptr;
    EXPECT_EQ(sqlite3_open(":memory:", &db), SQLITE_OK);
    const std::string question = std::string(endless) + "SELECT count(*) FROM n";
    EXPECT_EQ(sqlite3_exec(db, question.c_str(), nullptr, nullptr, nullptr), SQLITE_INTERRUPT);
    sqlite3_close(db);
    return outside.stopped();
  };
  EXPECT_FALSE(asked({})) << "the budget ended it";
  auto begun = Clock::now();
  auto last = begun;
  Clock::duration longest{};
  EXPECT_TRUE(asked([&](double, std::string_view) {
    const auto now = Clock::now();
    longest = std::max(longest, now - std::exchange(last, now));
    return now - begun < std::chrono::milliseconds(100);  // long before the budget, on a quick machine too
  }));
  EXPECT_LT(longest, std::chrono::milliseconds(100)) << "between two looks";
}

TEST(Outside, a_fence_ends_with_its_scope) {
  const support::TemporaryFolder scratch;
  const auto path = made_heights(scratch / "a.tif"), other = made_heights(scratch / "b.tif");
  const auto opens = [](const std::string& name) {
    VSIStatBufL stat{};
    return VSIStatL(name.c_str(), &stat) == 0;
  };
  {
    const io::Progress none;
    const io::Outside outside(path, none);
    EXPECT_TRUE(opens(path));
    EXPECT_FALSE(opens(other));
    EXPECT_FALSE(opens(scratch.path()));
    EXPECT_EQ(VSIFOpenL(path.c_str(), "rb+"), nullptr) << "nothing is written";
    EXPECT_EQ(VSIFOpenL((scratch / "a.tfw").c_str(), "wb"), nullptr);
    {
      const io::Outside inner(other, none);
      EXPECT_TRUE(opens(other));
      EXPECT_FALSE(opens(path));
    }
    EXPECT_TRUE(opens(path));
  }
  EXPECT_TRUE(opens(other));
}

}  // namespace
