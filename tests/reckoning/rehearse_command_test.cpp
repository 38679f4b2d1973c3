/// The command as a user meets it, on a made ground written to a file.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>

#include <nlohmann/json.hpp>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "made_ground.hpp"
#include "support/support.hpp"

namespace rehearse_command_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using made::Kind;

/// The made ground, moved to where its grid is in use: a path, a gate on a wall, a hut on the moor.
void write_trip(const support::TemporaryFolder& folder) {
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
  const auto saved = io::save_ground(g, folder / "made.gpkg");
  ASSERT_TRUE(saved) << saved.error().what;
  support::write_text(folder / "trip.toml", R"(ground = "made.gpkg"
name = "Made"
date = 2026-06-14
start = "09:15"
zone = "UTC"
[party]
size = 3
[[point]]
name = "Start"
at = "480000 6050000"
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

// Certainties of the table are the JSON's, to a tenth and never rounded up.
TEST(RehearseCommand, TheTableNeverRoundsUp) {
  const support::TemporaryFolder folder;
  write_trip(folder);
  const std::vector<std::string> words{"rehearse", folder / "trip.toml", "--walkers", "3000"};
  auto as_json = words;
  as_json.emplace_back("--json");
  const auto j = nlohmann::json::parse(support::run_lodeway(as_json).out);
  const auto text = support::run_lodeway(words).out;
  for (const auto& leg : j["legs"]) {
    for (const char* key : {"certainty", "certainty_closed_form"}) {
      const double tenths = std::floor(1000 * leg[key].get<double>() + 1e-9);
      char shown[16];
      std::snprintf(shown, sizeof shown, " %.1f ", tenths / 10);
      EXPECT_NE(text.find(shown), std::string::npos) << shown << " in\n" << text;
    }
  }
}

TEST(RehearseCommand, SaysHowSureAndIsTheSameAgain) {
  const support::TemporaryFolder folder;
  write_trip(folder);
  const std::vector<std::string> words{
      "rehearse", folder / "trip.toml", "--walkers", "3000",          "--seed", "5", "--json",
      "--png",    folder / "a.png",     "--tif",     folder / "a.tif"};
  const auto first = support::run_lodeway(words), again = support::run_lodeway(words);
  ASSERT_TRUE(first.status == 0 || first.status == 3) << first.err;  // 3: outside its limits
  EXPECT_EQ(first.status, again.status);
  EXPECT_EQ(first.out, again.out);
  const auto j = nlohmann::json::parse(first.out);
  EXPECT_EQ(j["walkers"], 3000);
  EXPECT_EQ(j["legs"].size(), 2U);
  for (const auto& leg : j["legs"]) {
    EXPECT_NEAR(leg["certainty"].get<double>(), leg["certainty_closed_form"].get<double>(),
                3 * leg["certainty_error"].get<double>() + 0.012);
    std::size_t lost = 0;
    for (const auto& n : leg["lost"]) lost += n.get<std::size_t>();
    EXPECT_EQ(lost + static_cast<std::size_t>(std::lround(leg["certainty"].get<double>() *
                                                          leg["walkers"].get<double>())),
              leg["walkers"].get<std::size_t>());
  }
  EXPECT_EQ(support::read_text(folder / "a.png").substr(1, 3), "PNG");
  EXPECT_EQ(support::read_text(folder / "a.tif").substr(0, 2), "II");
}

TEST(RehearseCommand, RefusesInOneLineAndWritesNothing) {
  const support::TemporaryFolder folder;
  write_trip(folder);
  for (const char* walkers : {"0", "1000000000", "-3", "many"}) {
    const auto ran = support::run_lodeway(
        {"rehearse", folder / "trip.toml", "--walkers", walkers, "--png", folder / "b.png"});
    EXPECT_EQ(ran.status, 2) << walkers;
    EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1) << ran.err;
    EXPECT_EQ(ran.out, "");
  }
  EXPECT_FALSE(std::ifstream(folder / "b.png").good());
  const auto nowhere = support::run_lodeway(
      {"rehearse", folder / "trip.toml", "--walkers", "100", "--tif", folder / "no/such/c.tif"});
  EXPECT_EQ(nowhere.status, 2);
  EXPECT_EQ(std::ranges::count(nowhere.err, '\n'), 1) << nowhere.err;
}

// What the trip says about a kind counts for it, and no slip of the pen is passed over.
TEST(RehearseCommand, ATripKnowsItsKindsBetter) {
  const support::TemporaryFolder folder;
  write_trip(folder);
  const auto certainty_with = [&](const std::string& more) {
    auto text = support::read_text(folder / "trip.toml");
    support::write_text(folder / "other.toml", text.insert(text.find("[party]"), more));
    const auto said =
        support::run_lodeway({"rehearse", folder / "other.toml", "--walkers", "2000", "--json"});
    const bool answered = said.status == 0 || said.status == 3;
    return answered ? nlohmann::json::parse(said.out)["legs"][0]["certainty"].get<double>() : -1.0;
  };
  EXPECT_GT(certainty_with(""), 0.9);
  EXPECT_LT(certainty_with("[kind.hut]\nseen_m = [20, 20, 10, 5]\n"), 0.6);
  auto text = support::read_text(folder / "trip.toml");
  support::write_text(folder / "other.toml",
                      text.insert(text.find("[party]"), "[kind.hut]\nseen = 20\n"));
  const auto refused = support::run_lodeway({"rehearse", folder / "other.toml"});
  EXPECT_EQ(refused.status, 2);
  EXPECT_NE(refused.err.find("kind.hut"), std::string::npos) << refused.err;
}
}  // namespace rehearse_command_test
