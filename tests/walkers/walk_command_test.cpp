/// The command as a user meets it: every track of its file is walked again by this test.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <regex>
#include <sstream>

#include <nlohmann/json.hpp>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "reckoning/made_ground.hpp"
#include "support/support.hpp"

namespace {
using namespace lodeway;
using earth::GridPoint;
using mapdata::Kind;
namespace made = reckoning::made;

/// The made ground where its grid is in use: a path with a fork, a gate on a wall, a hut.
void write_trip(const support::TemporaryFolder& folder, const char* air) {
  walking::Ground g = made::ground();
  g.grid = *earth::MapGrid::from_text("EPSG:32629");
  terrain::Frame f = g.elevation.frame();
  f.west_m += 480000;
  f.north_m += 6050000;
  terrain::Elevation moved(f);
  std::ranges::copy(g.elevation.cells(), moved.cells().begin());
  g.elevation = moved;
  const GridPoint o{480000, 6050000};
  made::add_point(g, Kind::hut, o + GridPoint{0, 800});
  made::add_point(g, Kind::gate, o + GridPoint{700, 800});
  made::add_line(g, Kind::wall, {o + GridPoint{700, -900}, o + GridPoint{700, 1500}});
  made::add_line(g, Kind::path, {o + GridPoint{0, -900}, o + GridPoint{0, -400}, o});
  made::add_line(g, Kind::path, {o + GridPoint{0, -400}, o + GridPoint{-500, 300}});
  const auto saved = io::save_ground(g, folder / "made.gpkg");
  ASSERT_TRUE(saved) << saved.error().what;
  support::write_text(folder / "trip.toml", std::string(R"(ground = "made.gpkg"
name = "Made"
date = 2026-06-14
start = "09:15"
zone = "UTC"
[party]
skill = "novice"
visibility = ")") + air + R"("
[[point]]
name = "Start"
at = "480000 6049100"
[[point]]
name = "Path's end"
at = "480000 6050000"
get_here = "along"
[[point]]
name = "Hut"
at = "480000 6050800"
get_here = "bearing"
[[point]]
name = "Gate"
at = "480700 6050800"
get_here = "bearing"
)");
}

struct Read {
  double seconds = 0;
  GridPoint at;
};
/// Tracks by name, places in metres.
std::map<std::string, std::vector<Read>> read_tracks(const std::string& path) {
  const auto grid = *earth::MapGrid::from_text("EPSG:32629");
  std::map<std::string, std::vector<Read>> out;
  std::istringstream text(support::read_text(path));
  std::string line, name;
  const std::regex named("<name>(.*)</name>"),
      point("lat=\"(.*)\" lon=\"(.*)\"><time>2026-06-(..)T(..):(..):(.*)Z</time>");
  std::smatch m;
  while (std::getline(text, line)) {
    if (std::regex_search(line, m, named)) name = m[1];
    if (!std::regex_search(line, m, point)) continue;
    const double s =
        ((std::stod(m[3]) * 24 + std::stod(m[4])) * 60 + std::stod(m[5])) * 60 + std::stod(m[6]);
    out[name].push_back({s, *grid.to_grid({std::stod(m[1]), std::stod(m[2])})});
  }
  return out;
}

TEST(WalkCommand, EveryTrackIsWalkedNobodyJumps) {
  const support::TemporaryFolder folder;
  write_trip(folder, "cloud");
  const auto ran = support::run_lodeway({"rehearse", folder / "trip.toml", "--walkers", "300",
                                         "--tracks", "200", "--gpx", folder / "tracks.gpx",
                                         "--geojson", folder / "tracks.geojson", "--json"});
  ASSERT_TRUE(ran.status == 0 || ran.status == 3) << ran.err;
  const auto tracks = read_tracks(folder / "tracks.gpx");
  ASSERT_EQ(tracks.size(), 400U);
  std::size_t apart = 0;
  for (int n = 1; n <= 200; ++n) {
    const auto name = "walker " + std::to_string(n);
    ASSERT_TRUE(tracks.contains(name) && tracks.contains(name + " believes")) << name;
    const auto& truth = tracks.at(name);
    const auto& believed = tracks.at(name + " believes");
    ASSERT_EQ(truth.size(), believed.size());
    ASSERT_GT(truth.size(), 20U);
    EXPECT_EQ(truth.front().seconds, (14 * 24 + 9) * 3600 + 15 * 60);
    for (std::size_t k = 1; k < truth.size(); ++k) {
      const double s = truth[k].seconds - truth[k - 1].seconds;
      const double far = earth::grid_distance_m(truth[k - 1].at, truth[k].at);
      ASSERT_GE(s, 0);
      // 7 decimals of a degree and hundredths of a second in the file
      ASSERT_LE(far, 3 * (s + 0.01) + 0.03) << name << ", point " << k;
      apart += earth::grid_distance_m(truth[k].at, believed[k].at) > 150;
    }
  }
  EXPECT_GT(apart, 0U);  // novices in cloud: somebody is not where it thinks
  const auto j = nlohmann::json::parse(support::read_text(folder / "tracks.geojson"));
  EXPECT_EQ(j["features"].size(), 400U);
  EXPECT_EQ(j["features"][0]["properties"]["name"], "walker 1");
  EXPECT_EQ(j["features"][0]["properties"]["times"].size(),
            j["features"][0]["geometry"]["coordinates"].size());
}

TEST(WalkCommand, AnOverdueParty) {
  const support::TemporaryFolder folder;
  write_trip(folder, "cloud");
  const std::vector<std::string> words{
      "rehearse", folder / "trip.toml", "--walkers", "2000", "--at", "09:45", "--json"};
  auto with_files = words;
  with_files.insert(with_files.end(), {"--png", folder / "o.png", "--tif", folder / "o.tif"});
  const auto first = support::run_lodeway(with_files), again = support::run_lodeway(words);
  ASSERT_TRUE(first.status == 0 || first.status == 3) << first.err;
  EXPECT_EQ(first.out, again.out);
  const auto o = nlohmann::json::parse(first.out)["walked"]["overdue"];
  EXPECT_EQ(o["at"], "09:45");
  double branches = 0, areas = o["elsewhere"].get<double>();
  for (const auto& b : o["branches"]) branches += b["share"].get<double>();
  EXPECT_NEAR(branches, 1, 1e-9);
  for (const auto& a : o["look_first"]) areas += a["share"].get<double>();
  EXPECT_NEAR(areas, 1, 1e-4);
  EXPECT_EQ(support::read_text(folder / "o.png").substr(1, 3), "PNG");
  EXPECT_EQ(support::read_text(folder / "o.tif").substr(0, 2), "II");
  // looked at in vain, the first area holds p (1 - 0.6) / (1 - 0.6 p)
  auto looked = words;
  looked.insert(looked.end(), {"--looked", "1=0.6"});
  const auto p = o["look_first"][0]["share"].get<double>();
  const auto then = nlohmann::json::parse(support::run_lodeway(looked).out);
  for (const auto& a : then["walked"]["overdue"]["look_first"]) {
    if (a["area"] == 1) {
      EXPECT_NEAR(a["share"].get<double>(), p * 0.4 / (1 - 0.6 * p), 1e-9);
    }
  }
  const auto text = support::run_lodeway(
      {"rehearse", folder / "trip.toml", "--walkers", "1000", "--at", "09:45"});
  EXPECT_NE(text.out.find("Look first"), std::string::npos);
  EXPECT_NE(text.out.find("rescue services, who decide"), std::string::npos);
}

TEST(WalkCommand, RefusesInOneLineAndWritesNothing) {
  const support::TemporaryFolder folder;
  write_trip(folder, "clear");
  const auto before = folder.count();
  for (const auto& [option, value] :
       std::vector<std::pair<std::string, std::string>>{{"--at", "25:00"},
                                                        {"--at", "noon"},
                                                        {"--looked", "1"},
                                                        {"--looked", "99=0.5"},
                                                        {"--looked", "1=1.5"},
                                                        {"--tracks", "100000"},
                                                        {"--gpx", folder / "no/such/t.gpx"}}) {
    const auto ran =
        support::run_lodeway({"rehearse", folder / "trip.toml", "--walkers", "100", option, value});
    EXPECT_EQ(ran.status, 2) << option << value << ran.out;
    EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1) << ran.err;
  }
  EXPECT_EQ(folder.count(), before);
}
}  // namespace
