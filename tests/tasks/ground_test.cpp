// Ground files end to end: real data, the same bytes twice, stopping, refusals through the program.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/tasks/demo_ground.hpp"
#include "lodeway/tasks/ground.hpp"
#include "support/support.hpp"
#include "tasks/made_heights.hpp"

namespace {

using namespace lodeway;
using mapdata::Kind;
using Scratch = support::TemporaryFolder;
using test::slope;

tasks::GroundSummary built(const tasks::BuildRequest& request) {
  auto result = tasks::build_ground(request);
  EXPECT_TRUE(result) << result.error().what;
  return result ? std::move(*result) : tasks::GroundSummary{};
}

/// Of what the map shows.
std::int64_t count(const tasks::GroundSummary& s, Kind kind) {
  const auto found = std::ranges::find(s.kinds, kind, &tasks::GroundSummary::OfKind::kind);
  return found == s.kinds.end() ? 0 : found->count - found->from_relief;
}

bool lacks(const tasks::GroundSummary& s, const std::string& part) {
  return std::ranges::any_of(s.missing, [&](const auto& m) { return m.find(part) != m.npos; });
}

/// Per cent of the stream vertices that lie below the mean of their 11 x 11 cells, moved north
/// first.
double below_their_surroundings(const walking::Ground& ground, double north_m) {
  int below = 0, all = 0;
  for (const auto& line : ground.map.lines) {
    if (line.label.kind != Kind::stream) continue;
    for (const auto at : line.points) {
      const earth::GridPoint p{at.east_m, at.north_m + north_m};
      double sum = 0;
      for (int i = -5; i <= 5; ++i) {
        for (int j = -5; j <= 5; ++j) {
          sum += terrain::height_at(ground.elevation, {p.east_m + 30 * i, p.north_m + 30 * j});
        }
      }
      const double z = terrain::height_at(ground.elevation, p);
      if (std::isnan(sum) || std::isnan(z)) continue;
      ++all;
      below += z < sum / 121;
    }
  }
  EXPECT_GT(all, 2000);
  return 100.0 * below / all;
}

TEST(BuildGround, spearfish_relief_and_streams_still_fit_each_other_on_wgs84) {
  LODEWAY_NEEDS_SHARED(data);
  const Scratch scratch;
  const std::string sf = data + "/spearfish-sd/";
  tasks::BuildRequest request{scratch / "sf.gpkg",
                              "",
                              {sf + "sfdem.tif"},
                              {sf + "roads.shp", sf + "streams.shp", sf + "restricted.shp"},
                              "",
                              0,
                              {},
                              "",
                              {},
                              {}};
  const auto s = built(request);
  EXPECT_EQ(s.epsg, 32613);
  EXPECT_EQ(s.frame.cell_m, 30);
  // Closed ground, and the lines that roads.shp labels "interstate" (ogrinfo counts 53): nobody
  // walks along them.
  EXPECT_EQ(count(s, Kind::forbidden), 4 + 53);
  EXPECT_GT(s.void_share, 0.0334);  // the file's own voids, and the corners that the turn leaves
  EXPECT_LT(s.void_share, 0.045);
  EXPECT_TRUE(lacks(s, "no woods"));
  request.out = scratch / "nad27.gpkg";
  request.crs = "EPSG:26713";
  built(request);
  const auto wgs84 = io::open_ground(scratch / "sf.gpkg"),
             nad27 = io::open_ground(scratch / "nad27.gpkg");
  ASSERT_TRUE(wgs84 && nad27);
  // SOURCE.md of the data, with another program and the nearest cell: 91.5 % lie below, of random
  // cells 52 %. Relief and lines must have moved together; and a move by the datum's 210 m must be
  // seen.
  const double own = below_their_surroundings(*nad27, 0);
  EXPECT_NEAR(own, 91.5, 2.5);
  EXPECT_NEAR(below_their_surroundings(*wgs84, 0), own, 1.0);
  EXPECT_LT(below_their_surroundings(*wgs84, 210), own - 15);
}

TEST(BuildGround, faroe_with_all_its_features) {
  LODEWAY_NEEDS_SHARED(data);
  const Scratch scratch;
  const std::string f = data + "/faroe/";
  const auto s = built(
      {scratch / "faroe.gpkg",
       "Faroe",
       {f + "FO_DSM_2017_FOTM_25M_DEFLATE_UInt16.tif"},
       {f + "fo_lakes.geojson", f + "osm-natural-peak.json", f + "osm-waterway-waterfall.json",
        f + "osm-building-church.json", f + "osm-barrier-cattle_grid.json",
        f + "osm-man_made-lighthouse.json", f + "us-bygdir-us_bygdir-0-bygdir.json",
        f + "us-topo-topo_20-125-wood_area.json", f + "us-topo-topo_20-84-SheepShelter.json"},
       "",
       50,
       {},
       "",
       {"fo_lakes.geojson=open, with credit"},
       {"Umhvorvisstovan"}});
  EXPECT_EQ(s.epsg, 32629);
  // counts by SOURCE.md of the data; one peak lies outside the relief's frame
  EXPECT_NEAR(static_cast<double>(count(s, Kind::summit)), 358, 1);
  EXPECT_EQ(count(s, Kind::waterfall), 88);
  EXPECT_EQ(count(s, Kind::building), 64);
  EXPECT_EQ(count(s, Kind::gate), 81);
  EXPECT_EQ(count(s, Kind::mast), 24);
  EXPECT_EQ(count(s, Kind::settlement), 126);
  EXPECT_EQ(count(s, Kind::sheepfold), 265);
  EXPECT_EQ(count(s, Kind::wood), 40);
  EXPECT_GE(count(s, Kind::lake), 691);
  EXPECT_GT(count(s, Kind::shore), 691);
  EXPECT_GT(count(s, Kind::wood_edge), 0);
  EXPECT_NEAR(s.void_share, 0.846, 0.02);  // sea, and the corners that the turn leaves
  EXPECT_LE(s.max_m, 883);
  EXPECT_GT(s.max_m, 800);
  ASSERT_FALSE(s.remarks.empty()) << "lakes whose rings touch themselves are mended and told";
  EXPECT_TRUE(lacks(s, "no paths or tracks"));
  EXPECT_EQ(s.sources[1].licence, "open, with credit");
  EXPECT_EQ(s.sources[0].attribution, "Umhvorvisstovan");
}

TEST(BuildGround, interlaken_on_its_own_grid_and_in_utm) {
  LODEWAY_NEEDS_SHARED(data);
  const Scratch scratch;
  const std::string dem = data + "/dem-interlaken-25m/dhm25_interlaken_lv95.tif";
  const auto own = built({scratch / "own.gpkg", "", {dem}, {}, "EPSG:2056", 0, {}, "", {}, {}});
  EXPECT_EQ(own.frame.rows, 240);  // SOURCE.md: 350 x 240, 559.5 to 2005.5 m, no void
  EXPECT_EQ(own.frame.cols, 350);
  EXPECT_EQ(own.void_share, 0);
  EXPECT_NEAR(own.min_m, 559.5, 0.05);
  EXPECT_NEAR(own.max_m, 2005.5, 0.05);
  EXPECT_TRUE(lacks(own, "only the relief is known"));
  const auto utm = built({scratch / "utm.gpkg", "", {dem}, {}, "", 0, {}, "", {}, {}});
  EXPECT_EQ(utm.epsg, 32632);
  EXPECT_EQ(utm.frame.cell_m, 25);
  const auto ground = io::open_ground(scratch / "utm.gpkg");
  ASSERT_TRUE(ground);
  // SOURCE.md: the lake has 8882 cells at 564.0 m. It stays flat; of the cells along its shore
  // (some 10 km, 400 cells) up to every second one is blended with the land.
  const auto z = ground->elevation.cells();
  const auto lake = std::ranges::count_if(z, [](float h) { return std::abs(h - 564.0F) < 0.05F; });
  EXPECT_NEAR(static_cast<double>(lake), 8782, 130);
}

TEST(BuildGround, malbun_from_openstreetmap_twice_the_same_bytes) {
  LODEWAY_NEEDS_SHARED(data);
  const Scratch scratch;
  const tasks::BuildRequest request{scratch / "a.gpkg",
                                    "Malbun",
                                    {slope(scratch, 9.555, 47.075, 85, 60)},
                                    {data + "/osm-liechtenstein/malbun-6x6km.osm.pbf"},
                                    "",
                                    20,
                                    {{9.556, 47.076, 9.639, 47.134}},
                                    "",
                                    {},
                                    {}};
  const auto s = built(request);
  EXPECT_GT(count(s, Kind::path), 100);
  EXPECT_GT(count(s, Kind::cliff), 80);
  EXPECT_GT(count(s, Kind::wood_edge), 20);
  EXPECT_GT(count(s, Kind::stream), 60);
  EXPECT_EQ(s.sources.at(1).licence, "ODbL 1.0");
  auto again = request;
  again.out = scratch / "b.gpkg";
  built(again);
  EXPECT_TRUE(support::read_text(scratch / "a.gpkg") == support::read_text(scratch / "b.gpkg"));
}

// Two woods of the map that share a border, one of them with a glade: one edge round both and one
// round the glade, none along the border; every end of a piece of edge is another's too.
TEST(BuildGround, edges_of_neighbouring_woods_join_up) {
  const Scratch scratch;
  const tasks::BuildRequest request{scratch / "g.gpkg",
                                    "",
                                    {slope(scratch, 8.99, 46.99, 50, 40)},
                                    {lodeway::support::tests_folder() + "/data/osm/hard.osm"},
                                    "",
                                    20,
                                    {},
                                    "",
                                    {},
                                    {}};
  built(request);
  const auto ground = io::open_ground(scratch / "g.gpkg");
  ASSERT_TRUE(ground);
  double edge_m = 0;
  std::map<std::pair<double, double>, int> ends;
  for (const auto& line : ground->map.lines) {
    if (line.label.kind != Kind::wood_edge) continue;
    EXPECT_EQ(line.label.origin, mapdata::Origin::from_areas);
    edge_m += mapdata::length_m(line.points);
    for (const auto p : {line.points.front(), line.points.back()}) ++ends[{p.east_m, p.north_m}];
  }
  for (const auto& [at, count] : ends) EXPECT_EQ(count % 2, 0) << at.first << " " << at.second;
  // 0.020 x 0.010 degrees round both, 0.003 x 0.003 the glade; a degree at 47 N: 76 051 m, 111 178
  // m
  const double wide = 76'051 * 0.9996, high = 111'178 * 0.9996;
  EXPECT_NEAR(edge_m, 2 * (0.020 * wide + 0.010 * high) + 2 * (0.003 * wide + 0.003 * high), 5);
}

/// An ESRI ASCII grid of 10 m cells in UTM 32.
std::string little(const Scratch& scratch, const std::string& name, int cols, int rows,
                   const std::string& height) {
  std::string text = "ncols " + std::to_string(cols) + "\nnrows " + std::to_string(rows) +
                     "\nxllcorner 500000\nyllcorner 5200000\ncellsize 10\nNODATA_value -9999\n";
  for (int k = 0; k < cols * rows; ++k) text += height + (k % cols == cols - 1 ? "\n" : " ");
  return scratch.write(name + ".asc", text);
}

// One cell, one row, one column: nothing derived, nothing lost, a picture all the same. Only voids
// or only infinite heights: refused in one line, nothing written.
TEST(GroundCommand, the_smallest_grounds_and_those_without_heights) {
  const Scratch scratch;
  const std::string prj =
      "PROJCS[\"WGS_1984_UTM_Zone_32N\",GEOGCS[\"GCS_WGS_1984\",DATUM[\"D_WGS_1984\",SPHEROID["
      "\"WGS_1984\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"Degree\",0."
      "017453292519943295]],"
      "PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"False_Easting\",500000],PARAMETER[\"False_"
      "Northing\",0],"
      "PARAMETER[\"Central_Meridian\",9],PARAMETER[\"Scale_Factor\",0.9996],PARAMETER[\"Latitude_"
      "Of_Origin\",0],"
      "UNIT[\"Meter\",1]]";
  for (const auto& [cols, rows] : {std::pair{1, 1}, {1, 60}, {60, 1}, {2, 2}}) {
    scratch.write("t.prj", prj);
    const auto dem = little(scratch, "t", cols, rows, "512.25");
    const auto out = scratch / "t.gpkg";
    const auto made = support::run_lodeway(
        {"ground", "build", out, "--elevation", dem, "--crs", "EPSG:32632", "--json"});
    ASSERT_EQ(made.status, 0) << made.err;
    const auto json = nlohmann::json::parse(made.out);
    EXPECT_EQ(json["void_share"], 0.0);
    EXPECT_EQ(json["rows"], rows);
    EXPECT_EQ(json["cols"], cols);
    EXPECT_EQ(json["max_m"], 512.25);
    EXPECT_TRUE(json["kinds"].empty());
    EXPECT_EQ(support::run_lodeway({"ground", "show", out, "--png", scratch / "t.png"}).status, 0);
    const auto seen = support::run_lodeway({"ground", "seen", out, "--from", "500005 5200005"});
    EXPECT_EQ(seen.status, 0) << seen.err;
  }
  for (const char* height : {"-9999", "1e30", "-1e30"}) {
    scratch.write("v.prj", prj);
    const auto dem = little(scratch, "v", 8, 8, height);
    const auto o =
        support::run_lodeway({"ground", "build", scratch / "v.gpkg", "--elevation", dem});
    EXPECT_EQ(o.status, 2);
    EXPECT_NE(o.err.find("v.asc: expected heights, found only voids"), std::string::npos) << o.err;
    EXPECT_EQ(std::ranges::count(o.err, '\n'), 1) << o.err;
    EXPECT_FALSE(std::filesystem::exists(scratch / "v.gpkg"));
  }
}

class StopAt : public tasks::Progress {
 public:
  explicit StopAt(int call) : left_(call) {}
  bool go_on(double, const std::string&) override { return left_-- > 0; }

 private:
  int left_;
};

TEST(BuildGround, stopped_anywhere_it_leaves_nothing) {
  const Scratch scratch;
  const auto dem = slope(scratch, 9, 47, 40, 40);
  scratch.write(
      "water.geojson",
      R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"natural":"water"},)"
      R"("geometry":{"type":"Polygon","coordinates":[[[9.01,47.01],[9.02,47.01],[9.02,47.02],[9.01,47.01]]]}}]})");
  const tasks::BuildRequest request{
      scratch / "g.gpkg", "", {dem}, {scratch / "water.geojson"}, "", 0, {}, "", {}, {}};
  const long before = scratch.count();
  int stops = 0;
  for (int call = 0; call < 100000; call += 1 + call / 20) {  // every one at first
    StopAt progress(call);
    const auto result = tasks::build_ground(request, &progress);
    if (result) break;
    ++stops;
    EXPECT_EQ(result.error().code, FaultCode::cancelled) << result.error().what;
    EXPECT_EQ(scratch.count(), before) << call;
  }
  EXPECT_GE(stops, 4) << "while reading, while turning, between the files, before writing";
  const auto done = tasks::show_ground(scratch / "g.gpkg");
  ASSERT_TRUE(done);
  EXPECT_EQ(count(*done, Kind::lake), 1);
  EXPECT_EQ(count(*done, Kind::shore), 1);
}

/// Hears of work that should never have begun.
class NoWork : public tasks::Progress {
 public:
  bool go_on(double, const std::string& doing) override {
    ADD_FAILURE() << doing;
    return false;
  }
};

TEST(BuildGround, a_place_that_cannot_be_written_to_is_refused_before_the_work) {
  const Scratch scratch;
  const auto file = scratch.write("file", "x");
  std::filesystem::create_directory(scratch / "folder.gpkg");
  const auto dem = slope(scratch, 9, 47, 40, 40);
  const long before = scratch.count();
  for (const std::string& out : {file + "/g.gpkg", scratch / "none/g.gpkg", scratch / "folder.gpkg",
                                 std::string("/proc/g.gpkg")}) {
    NoWork progress;
    const auto demo = tasks::make_demo_ground(out, 1, &progress);
    const auto build = tasks::build_ground({out, "", {dem}, {}, "", 0, {}, "", {}, {}}, &progress);
    ASSERT_FALSE(demo);
    ASSERT_FALSE(build);
    for (const Fault& fault : {demo.error(), build.error()}) {
      EXPECT_EQ(fault.code, FaultCode::io_failed) << fault.what;
      EXPECT_TRUE(fault.what.starts_with(out + ": could not be written")) << fault.what;
    }
  }
  EXPECT_EQ(scratch.count(), before);
}

TEST(GroundCommand, says_what_is_seen) {
  const Scratch scratch;
  const auto ground = scratch / "fells.gpkg";
  ASSERT_EQ(support::skarrow_ground(ground).status, 0);
  const auto said = support::run_lodeway(
      {"ground", "seen", ground, "--from", "Harrik Pike", "--json", "--png", scratch / "seen.png"});
  ASSERT_EQ(said.status, 0) << said.err;
  EXPECT_TRUE(support::read_text(scratch / "seen.png").starts_with("\x89PNG"));
  const auto json = nlohmann::json::parse(said.out);
  EXPECT_EQ(json["refraction"], 0.13);
  const auto& place = json["places"].at(0);
  const auto great = std::ranges::find_if(
      place["in_sight"], [](const auto& s) { return s["name"] == "Great Skarrow"; });
  ASSERT_NE(great, place["in_sight"].end()) << "the higher neighbour across a shallow saddle";
  // Places of the gazetteer, a triangle by hand: 1200 m west, 600 m north.
  EXPECT_NEAR((*great)["length_horizontal_m"].get<double>(), std::hypot(1200, 600), 15);
  EXPECT_NEAR((*great)["bearing_grid_deg"].get<double>(), 270 + 26.6, 1.0);
  EXPECT_GT(place["share_seen"].get<double>(), 0.02);
  EXPECT_LT(place["share_seen"].get<double>(), 0.30);
  const auto text = support::run_lodeway(
      {"ground", "seen", ground, "--from", "Harrik Pike", "--from", "Ravock Hut"});
  EXPECT_NE(text.out.find("from one of them or more"), std::string::npos) << text.out;
  for (const auto& [words, part] : std::vector<std::pair<std::vector<std::string>, std::string>>{
           {{"--from", "Nowhere at all"}, "expected a name on the map or a grid reference"},
           {{"--from", "470000 6050000"}, "km outside it, to the west"},
           {{"--from", "Harrik Pike", "--eye", "-3"}, "eye: expected 0 to 1000 m"},
           {{"--from", "Harrik Pike", "--reach", "nan"}, "reach: expected"},
           {{"--from", "Harrik Pike", "--png", "/proc/seen.png"}, "/proc/seen.png"}}) {
    auto all = words;
    all.insert(all.begin(), {"ground", "seen", ground});
    const auto o = support::run_lodeway(all);
    EXPECT_EQ(o.status, 2) << part;
    EXPECT_NE(o.err.find(part), std::string::npos) << o.err;
    EXPECT_EQ(std::ranges::count(o.err, '\n'), 1) << o.err;
  }
}

TEST(GroundCommand, builds_shows_draws_and_refuses) {
  const Scratch scratch;
  const auto dem = slope(scratch, 9, 47, 40, 40);
  const auto out = scratch / "g.gpkg";
  const auto made = support::run_lodeway({"ground", "build", out, "--elevation", dem, "--bounds",
                                          "9.005,47.005,9.03,47.03", "--cell", "50", "--licence",
                                          "CC0", "--json"});
  EXPECT_EQ(made.status, 0) << made.err;
  const auto shown =
      support::run_lodeway({"ground", "show", out, "--json", "--png", scratch / "g.png"});
  ASSERT_EQ(shown.status, 0) << shown.err;
  const auto json = nlohmann::json::parse(shown.out);
  for (const char* key : {"name", "crs", "epsg", "cell_m", "rows", "cols", "bounds_m", "void_share",
                          "min_m", "max_m", "kinds", "sources", "missing"}) {
    EXPECT_TRUE(json.contains(key)) << key;
  }
  EXPECT_EQ(json["cell_m"], 50);
  EXPECT_EQ(json["sources"][0]["licence"], "CC0");
  EXPECT_EQ(nlohmann::json::parse(made.out)["rows"], json["rows"]);
  EXPECT_TRUE(support::read_text(scratch / "g.png").starts_with("\x89PNG"));
  const auto refused = [&](std::vector<std::string> words, const std::string& part) {
    const long before = scratch.count();
    words.insert(words.begin(), "ground");
    const auto o = support::run_lodeway(words);
    EXPECT_EQ(o.status, 2);
    EXPECT_NE(o.err.find(part), std::string::npos) << o.err;
    EXPECT_EQ(std::ranges::count(o.err, '\n'), 1) << o.err;
    EXPECT_EQ(scratch.count(), before);
  };
  refused({"build", scratch / "g.tif", "--elevation", dem}, "expected a name that ends in .gpkg");
  refused({"build", out, "--elevation", out}, "expected another file than those that are read");
  refused({"build", "/proc/x.gpkg", "--elevation", dem}, "/proc/x.gpkg: could not be written");
  refused({"build", scratch / "n.gpkg", "--elevation", dem, "--bounds", "1,2,3"}, "--bounds");
  refused({"build", scratch / "n.gpkg", "--elevation", dem, "--kinds", scratch / "none.toml"},
          "none.toml: expected");
  refused({"build", scratch / "n.gpkg", "--elevation", dem, "--crs", "EPSG:4326"}, "crs: ");
  refused({"show", dem}, "slope.asc: expected a ground file");
  // what the database says of a broken schema quotes the file: bytes that are no text
  auto bytes = support::read_text(out);
  const std::string made_by = "CREATE TABLE gpkg_contents", odd = "CREATE \xFF\x9B\xFE";
  ASSERT_NE(bytes.find(made_by), std::string::npos);
  bytes.replace(bytes.find(made_by), odd.size(), odd);
  support::write_text(scratch / "odd.gpkg", bytes);
  refused({"show", scratch / "odd.gpkg"}, "odd.gpkg: expected a ground file (GeoPackage): ");
  const auto said = support::run_lodeway({"ground", "show", scratch / "odd.gpkg"}).err;
  EXPECT_NO_THROW(static_cast<void>(nlohmann::json(said).dump())) << "not UTF-8: " << said;
}

}  // namespace
