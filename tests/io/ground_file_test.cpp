// The ground file: exact round trips, the same bytes, other programs read it, bad files and full
// disks.
#include <sys/resource.h>

#include <chrono>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/mapdata/traffic.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;
using mapdata::Kind;
using Scratch = support::TemporaryFolder;

constexpr float nan_f = std::numeric_limits<float>::quiet_NaN();

walking::Ground small_ground(int rows = 300, int cols = 517) {
  walking::Ground g;
  g.name = "Skarrow, the north \"side\"";
  g.grid = earth::MapGrid::from_text("EPSG:25832").value();
  g.elevation = terrain::Elevation({600'000.125, 5'200'000.3, 7.3, rows, cols});
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < cols; ++c) {
      // third-metres: no float is exact in decimal, so any rounding on the way would show
      g.elevation[r, c] = 400.0F + static_cast<float>(r * 31 + c) / 3.0F;
    }
  }
  g.elevation[0, 0] = g.elevation[rows - 1, cols - 1] = g.elevation[rows / 2, cols / 3] = nan_f;
  g.map.points = {{{Kind::summit, "Høgfjell"}, {600'100.1, 5'199'900.7}, 701.25},
                  {{Kind::sheepfold, ""}, {600'200, 5'199'800}, std::nan("")}};
  g.map.lines = {{{Kind::cliff, ""},
                  {{600'300, 5'199'700}, {600'310.0 / 3, 5'199'650}},
                  mapdata::Side::right,
                  false,
                  false},
                 {{Kind::stream, "Gill"},
                  {{600'000, 5'199'000}, {600'001, 5'199'001}, {600'002, 5'199'000}},
                  mapdata::Side::none,
                  true,
                  false},
                 {{Kind::path, ""},
                  {{600'000, 5'199'000}, {600'100, 5'199'100}},
                  mapdata::Side::left,
                  false,
                  true}};
  g.map.areas = {
      {{Kind::wood, "Low Wood"},
       {{600'000, 5'199'000}, {600'900, 5'199'000}, {600'900, 5'199'900}, {600'000, 5'199'900}},
       {{{600'100, 5'199'100}, {600'100, 5'199'200}, {600'200, 5'199'200}}}}};
  g.map.points[1].label.origin = mapdata::Origin::from_relief;
  g.map.lines[0].label.origin = mapdata::Origin::from_areas;
  g.map.lines[1].label.origin = mapdata::Origin::from_relief;
  g.map.lines[1].order = 3;
  g.landforms = terrain::Raster<terrain::Landform>({600'000, 5'200'000, 20, 110, 190});
  for (std::size_t k = 0; k < g.landforms.cells().size(); ++k) {
    g.landforms.cells()[k] = static_cast<terrain::Landform>(k * k % 11);
  }
  g.kinds[Kind::path] = {true, true, true, false, 0.9, {30, 20, 8, 3}, {0.95, 0.9, 0.8, 0.4}};
  g.kinds[Kind::cliff].forbids = true;
  g.sources = {
      {"elevation", "a.tif", "Model 1", "CC BY 4.0", "© Somebody", "EPSG:2056", "2019-12-05"},
      {"features", "b.osm.pbf", "", "", "", "EPSG:4326", ""}};
  return g;
}

bool same(float a, float b) { return a == b || (std::isnan(a) && std::isnan(b)); }
bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

TEST(GroundFile, everything_comes_back_exactly) {
  const Scratch scratch;
  const auto g = small_ground();
  const auto saved = io::save_ground(g, scratch / "g.gpkg");
  ASSERT_TRUE(saved) << saved.error().what;
  EXPECT_EQ(scratch.count(), 1);
  const auto back = io::open_ground(scratch / "g.gpkg");
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_EQ(back->name, g.name);
  EXPECT_EQ(back->grid.epsg(), 25832);
  EXPECT_EQ(back->elevation.frame(), g.elevation.frame());
  for (std::size_t i = 0; i < g.elevation.cells().size(); ++i) {
    ASSERT_TRUE(same(back->elevation.cells()[i], g.elevation.cells()[i])) << i;
  }
  ASSERT_EQ(back->map.points.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(back->map.points[i].label.kind, g.map.points[i].label.kind);
    EXPECT_EQ(back->map.points[i].label.name, g.map.points[i].label.name);
    EXPECT_EQ(back->map.points[i].label.origin, g.map.points[i].label.origin);
    EXPECT_EQ(back->map.points[i].at, g.map.points[i].at);
    EXPECT_TRUE(same(back->map.points[i].height_m, g.map.points[i].height_m));
  }
  ASSERT_EQ(back->map.lines.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(back->map.lines[i].label.kind, g.map.lines[i].label.kind);
    EXPECT_EQ(back->map.lines[i].label.origin, g.map.lines[i].label.origin);
    EXPECT_EQ(back->map.lines[i].order, g.map.lines[i].order);
    EXPECT_EQ(back->map.lines[i].points, g.map.lines[i].points);
    EXPECT_EQ(back->map.lines[i].falls, g.map.lines[i].falls);
    EXPECT_EQ(back->map.lines[i].tunnel, g.map.lines[i].tunnel);
    EXPECT_EQ(back->map.lines[i].bridge, g.map.lines[i].bridge);
  }
  ASSERT_EQ(back->map.areas.size(), 1U);
  EXPECT_EQ(back->map.areas[0].outer, g.map.areas[0].outer);
  EXPECT_EQ(back->map.areas[0].holes, g.map.areas[0].holes);
  EXPECT_TRUE(back->landforms == g.landforms);
  const auto& path = back->kinds[Kind::path];
  EXPECT_TRUE(path.leads && path.catches && path.ticks && !path.forbids);
  EXPECT_EQ(path.speed_factor, 0.9);
  EXPECT_EQ(path.seen_from_m, g.kinds[Kind::path].seen_from_m);
  EXPECT_EQ(path.recognised, g.kinds[Kind::path].recognised);
  EXPECT_TRUE(back->kinds[Kind::cliff].forbids);
  ASSERT_EQ(back->sources.size(), 2U);
  EXPECT_EQ(back->sources[0].attribution, "© Somebody");
  EXPECT_EQ(back->sources[0].date, "2019-12-05");
  EXPECT_EQ(back->sources[1].licence, "");
}

TEST(GroundFile, the_same_ground_gives_the_same_bytes) {
  const Scratch scratch;
  ASSERT_TRUE(io::save_ground(small_ground(), scratch / "a.gpkg"));
  ASSERT_TRUE(io::save_ground(small_ground(), scratch / "other-name.gpkg"));
  EXPECT_TRUE(support::read_text(scratch / "a.gpkg") ==
              support::read_text(scratch / "other-name.gpkg"));
}

std::string said_by(const std::string& command) {
  std::string out;
  std::FILE* pipe = popen(command.c_str(), "r");
  std::array<char, 4096> part{};
  while (const auto n = std::fread(part.data(), 1, part.size(), pipe)) out.append(part.data(), n);
  return pclose(pipe) == 0 ? out : "failed: " + out;
}

TEST(GroundFile, gdals_own_programs_read_it) {
  const Scratch scratch;
  ASSERT_TRUE(io::save_ground(small_ground(), scratch / "g.gpkg"));
  const std::string heights = "'GPKG:" + (scratch / "g.gpkg") + ":elevation'";
  const std::string raster = said_by("gdalinfo " + heights + " 2>&1");
  EXPECT_NE(raster.find("Size is 517, 300"), std::string::npos) << raster;
  EXPECT_NE(raster.find("Float32"), std::string::npos);
  EXPECT_NE(raster.find("ETRS89 / UTM zone 32N"), std::string::npos);
  const std::string forms = said_by("gdalinfo 'GPKG:" + (scratch / "g.gpkg") + ":landforms' 2>&1");
  EXPECT_NE(forms.find("Size is 190, 110"), std::string::npos) << forms;
  EXPECT_NE(forms.find("2 summit"), std::string::npos) << forms;
  const std::string all = said_by("gdalinfo '" + (scratch / "g.gpkg") + "' 2>&1");
  EXPECT_NE(all.find(":elevation"), std::string::npos) << all;
  const std::string vectors = said_by("ogrinfo -al -so '" + (scratch / "g.gpkg") + "' 2>&1");
  for (const char* layer : {"points", "lines", "areas", "sources", "kinds", "about"}) {
    EXPECT_NE(vectors.find(std::string("Layer name: ") + layer), std::string::npos) << vectors;
  }
  // one known cell, read by another program: row 1, column 2 of the northern edge
  const std::string cell = said_by("gdallocationinfo -valonly " + heights + " 2 1");
  const std::string derived = said_by("ogrinfo -q '" + (scratch / "g.gpkg") +
                                      "' -sql \"SELECT kind, strahler FROM lines WHERE source = "
                                      "'derived from elevation'\" 2>&1");
  EXPECT_NE(derived.find("kind (String) = stream"), std::string::npos) << derived;
  EXPECT_NE(derived.find("strahler (Integer) = 3"), std::string::npos) << derived;
  EXPECT_NEAR(std::stod(cell), 400 + 33.0 / 3, 1e-4);
}

TEST(GroundFile, how_busy_a_road_is_comes_back_in_words_and_old_files_do_not_know) {
  const Scratch scratch;
  auto g = small_ground();
  g.map.lines.resize(1);
  using mapdata::Traffic;
  const Traffic all[] = {Traffic::unknown, Traffic::quiet, Traffic::busy, Traffic::fast};
  for (const auto traffic : all) {
    g.map.lines.push_back(g.map.lines.front());
    g.map.lines.back().label = {Kind::road, "", mapdata::Origin::mapped};
    g.map.lines.back().order = static_cast<unsigned char>(traffic);
  }
  ASSERT_TRUE(io::save_ground(g, scratch / "g.gpkg"));
  const auto back = io::open_ground(scratch / "g.gpkg");
  ASSERT_TRUE(back) << back.error().what;
  for (std::size_t i = 0; i < std::size(all); ++i)
    EXPECT_EQ(mapdata::traffic_of(back->map.lines[i + 1]), all[i]) << i;
  const auto words = said_by("ogrinfo -q '" + (scratch / "g.gpkg") +
                             "' -sql \"SELECT traffic FROM lines WHERE kind = 'road'\" 2>&1");
  for (const char* word : {"= quiet", "= busy", "= fast", "(null)"})
    EXPECT_NE(words.find(word), std::string::npos) << words;
  said_by("ogrinfo -q -update '" + (scratch / "g.gpkg") +
          "' -sql 'ALTER TABLE lines DROP COLUMN traffic' 2>&1");
  const auto old = io::open_ground(scratch / "g.gpkg");
  ASSERT_TRUE(old) << old.error().what;
  for (const auto& line : old->map.lines) EXPECT_EQ(mapdata::traffic_of(line), Traffic::unknown);
}

TEST(GroundFile, files_of_the_first_days_open_too) {
  const Scratch scratch;
  ASSERT_TRUE(io::save_ground(small_ground(), scratch / "g.gpkg"));
  for (const char* sql :
       {"ALTER TABLE lines DROP COLUMN source", "ALTER TABLE points DROP COLUMN source",
        "ALTER TABLE areas DROP COLUMN source", "ALTER TABLE lines DROP COLUMN strahler",
        "ALTER TABLE lines DROP COLUMN traffic"}) {
    const auto said =
        said_by("ogrinfo -q -update '" + (scratch / "g.gpkg") + "' -sql '" + sql + "' 2>&1");
    ASSERT_EQ(said.find("ERROR"), std::string::npos) << said;
  }
  said_by("ogrinfo -q -update '" + (scratch / "g.gpkg") + "' -sql 'DROP TABLE landforms' 2>&1");
  const auto back = io::open_ground(scratch / "g.gpkg");
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_TRUE(back->landforms.empty());
  EXPECT_EQ(back->map.lines[1].label.origin, mapdata::Origin::mapped);
  EXPECT_EQ(back->map.lines[1].order, 0);
  EXPECT_EQ(back->map.lines[2].bridge, true);
}

TEST(GroundFile, a_ground_without_heights_in_it_and_one_cell) {
  const Scratch scratch;
  auto g = small_ground(1, 1);
  ASSERT_TRUE(std::isnan(g.elevation[0, 0]));
  g.map = {};
  ASSERT_TRUE(io::save_ground(g, scratch / "one.gpkg"));
  const auto back = io::open_ground(scratch / "one.gpkg");
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_EQ(back->elevation.frame(), g.elevation.frame());
  EXPECT_TRUE(std::isnan(back->elevation[0, 0]));
  EXPECT_TRUE(back->map.lines.empty());
}

TEST(GroundFile, opens_quickly) {
  const Scratch scratch;
  auto g = small_ground(1200, 1200);
  for (int i = 0; i < 5000; ++i) {
    auto line = g.map.lines[1];
    for (int k = 0; k < 20; ++k) line.points.push_back({600'010.0 + k, 5'199'000.0 + i + k});
    g.map.lines.push_back(line);
  }
  ASSERT_TRUE(io::save_ground(g, scratch / "g.gpkg"));
  const auto start = std::chrono::steady_clock::now();
  const auto back = io::open_ground(scratch / "g.gpkg");
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  ASSERT_TRUE(back);
  std::printf("opened 1200 x 1200 cells and 5000 lines in %.3f s\n", took.count());
  EXPECT_LT(took.count(), 3.0)
      << "0.3 s is meant; ten times that is a fault even on a busy machine";
}

/// One line that holds the file's name, and nothing left beside it.
void expect_refused(const Result<void>& result, FaultCode code, const std::string& part) {
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().code, code);
  EXPECT_NE(result.error().what.find(part), std::string::npos) << result.error().what;
  EXPECT_EQ(result.error().what.find('\n'), std::string::npos) << result.error().what;
}

TEST(GroundFile, folders_that_cannot_be_written_to) {
  const Scratch scratch;
  scratch.write("file", "x");
  expect_refused(io::save_ground(small_ground(), scratch / "file/g.gpkg"), FaultCode::io_failed,
                 "g.gpkg");
  expect_refused(io::save_ground(small_ground(), "/proc/g.gpkg"), FaultCode::io_failed,
                 "/proc/g.gpkg");
  expect_refused(io::save_ground(small_ground(), scratch / "none/g.gpkg"), FaultCode::io_failed,
                 "g.gpkg");
  EXPECT_EQ(scratch.count(), 1);
}

TEST(GroundFile, a_full_disk_leaves_nothing_and_keeps_what_was_there) {
  const Scratch scratch;
  scratch.write("g.gpkg", "what was there");
  std::signal(SIGXFSZ, SIG_IGN);
  rlimit before{};
  getrlimit(RLIMIT_FSIZE, &before);
  for (const rlim_t size :
       {20'000U, 150'000U, 300'000U}) {  // in the tables, the features, the heights
    const rlimit small{size, before.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
    const auto result = io::save_ground(small_ground(), scratch / "g.gpkg");
    setrlimit(RLIMIT_FSIZE, &before);
    expect_refused(result, FaultCode::io_failed, "g.gpkg: could not be written");
    EXPECT_EQ(scratch.count(), 1);
    EXPECT_EQ(support::read_text(scratch / "g.gpkg"), "what was there");
  }
}

void expect_not_opened(const std::string& path, const std::string& part) {
  const auto result = io::open_ground(path);
  ASSERT_FALSE(result);
  EXPECT_NE(result.error().what.find(part), std::string::npos) << result.error().what;
  EXPECT_EQ(result.error().what.find('\n'), std::string::npos) << result.error().what;
}

TEST(GroundFile, bad_files_are_refused_in_one_line) {
  const Scratch scratch;
  expect_not_opened(scratch / "none.gpkg", "none.gpkg: expected a ground file, found none");
  expect_not_opened(scratch.write("text.gpkg", "hello"), "expected a ground file");
  expect_not_opened(scratch.path(), "expected a ground file, found none");
  ASSERT_TRUE(io::save_ground(small_ground(), scratch / "g.gpkg"));
  const std::string whole = support::read_text(scratch / "g.gpkg");
  for (const std::size_t part : {100UZ, whole.size() / 3, whole.size() / 2, whole.size() - 5000}) {
    expect_not_opened(scratch.write("cut.gpkg", whole.substr(0, part)), "cut.gpkg: ");
  }
}

TEST(GroundFile, foreign_edits_are_refused_by_table_and_row) {
  const Scratch scratch;
  const auto edited = [&](const std::string& sql) {
    EXPECT_TRUE(io::save_ground(small_ground(), scratch / "e.gpkg"));
    // without OGR's triggers in the way
    EXPECT_EQ(said_by("ogrinfo -q '" + (scratch / "e.gpkg") + "' -sql \"" + sql + "\" 2>&1"), "");
    return scratch / "e.gpkg";
  };
  expect_not_opened(edited("UPDATE lines SET kind='motorway' WHERE fid=2"),
                    "lines: row 2: the kind \"motorway\" is not known");
  expect_not_opened(edited("UPDATE kinds SET speed_factor=-1 WHERE kind='path'"), "kinds: row ");
  expect_not_opened(edited("UPDATE about SET value='Lodeway ground 99' WHERE key='format'"),
                    "expected the format \"Lodeway ground 1\"");
  expect_not_opened(edited("UPDATE about SET value='EPSG:4326' WHERE key='crs'"), "about: crs: ");
  expect_not_opened(edited("UPDATE points SET geom=(SELECT x'47500001787F00000101000000'||"
                           "x'B49DD9794378EA44'||x'B49DD9794378EA44') WHERE fid=1"),
                    "points: row 1: expected a place within 1000 km of the heights");
  expect_not_opened(edited("DROP TABLE sources"), "expected a table \"sources\"");
}

}  // namespace
