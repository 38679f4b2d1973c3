// `lodeway learn`, `train` and `debrief` through the program: what is refused and how it is said,
// what JSON carries, exit codes, and that a party file moves the certainty of a trip that names it.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <fstream>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/support.hpp"

namespace lodeway {
namespace {

using nlohmann::json;
using support::run_lodeway;
using support::TemporaryFolder;

const TemporaryFolder& shelf() {
  static const TemporaryFolder folder;
  return folder;
}
/// One demo ground for all tests of this file.
const std::string& ground() {
  static const std::string path = [] {
    auto made = shelf() / "skarrow.gpkg";
    const auto o = run_lodeway({"ground", "demo", made});
    EXPECT_EQ(o.status, 0) << o.err;
    return made;
  }();
  return path;
}

/// A walk of so many points, one each `step_s`, some 4 km/h in waves, from a place on the globe.
std::string track(double lat, double lon, int points, double step_s = 15) {
  std::string out =
      "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\" creator=\"t\" "
      "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n";
  double north_m = 0;
  for (int i = 0; i < points; ++i) {
    const double t = i * step_s;
    const auto at =
        std::chrono::sys_seconds{std::chrono::seconds{1'780'000'000 + static_cast<long long>(t)}};
    const auto day = std::chrono::floor<std::chrono::days>(at);
    const std::chrono::year_month_day ymd{day};
    const std::chrono::hh_mm_ss clock{at - day};
    out += fmt::format(
        "<trkpt lat=\"{:.6f}\" lon=\"{:.6f}\"><ele>{:.1f}</ele><time>{:04}-{:02}-{:02}T{:02}:{:02}:"
        "{:02}Z</time></trkpt>\n",
        lat + north_m / 111'200, lon, 100 + 20 * std::sin(t / 900), static_cast<int>(ymd.year()),
        static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()), clock.hours().count(),
        clock.minutes().count(), clock.seconds().count());
    north_m += step_s * (1.1 + 0.25 * std::sin(t / 130) + 0.1 * std::sin(t / 37));
  }
  return out + "</trkseg></trk></gpx>\n";
}

void expect_one_line(const support::Outcome& o, const std::string& says) {
  EXPECT_EQ(o.status, 2) << o.out;
  EXPECT_EQ(std::ranges::count(o.err, '\n'), 1) << o.err;
  EXPECT_NE(o.err.find(says), std::string::npos) << o.err;
}

TEST(LearnCommand, EveryTrackIsUsedOrRefusedWithItsReasonAndNothingIsKeptUnasked) {
  const TemporaryFolder f;
  const auto walk = f.write("walk.gpx", track(54.5, -2.9, 500));
  const auto short_walk = f.write("short.gpx", track(54.5, -2.9, 20));
  const auto party = f / "party.toml";
  const auto o = run_lodeway({"learn", party, "--track", walk, "--track", short_walk, "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  const auto j = json::parse(o.out);
  ASSERT_EQ(j["tracks"].size(), 2U);
  for (const auto& t : j["tracks"]) {
    for (const char* key : {"file", "used", "reason", "learned_km"})
      EXPECT_TRUE(t.contains(key)) << key;
  }
  EXPECT_EQ(j["tracks"][0]["used"], "whole");
  // 500 points of 15 s at a mean of 1.1 m/s
  EXPECT_NEAR(j["tracks"][0]["learned_km"].get<double>(), 499 * 15 * 1.1 / 1000, 0.6);
  EXPECT_EQ(j["tracks"][1]["used"], "refused");
  EXPECT_EQ(j["tracks"][1]["learned_km"], 0);
  EXPECT_FALSE(j["tracks"][1]["reason"].get<std::string>().empty());
  EXPECT_FALSE(j["kept"].get<bool>());
  EXPECT_FALSE(std::ifstream(party).good());
}

TEST(LearnCommand, AllRefusedIsStatusTwo) {
  const TemporaryFolder f;
  const auto short_walk = f.write("short.gpx", track(54.5, -2.9, 20));
  const auto o = run_lodeway({"learn", f / "party.toml", "--track", short_walk, "--keep"});
  expect_one_line(o, "refused");
  EXPECT_EQ(f.count(), 1);
}

TEST(LearnCommand, TheSameWalkUnderAnotherNameIsKnownAlready) {
  const TemporaryFolder f;
  const auto text = track(54.5, -2.9, 500);
  const auto one = f.write("a.gpx", text), two = f.write("b.gpx", text);
  const auto party = f / "party.toml";
  const auto o = run_lodeway({"learn", party, "--track", one, "--track", two, "--keep", "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  const auto j = json::parse(o.out);
  EXPECT_EQ(j["tracks"][0]["used"], "whole");
  EXPECT_EQ(j["tracks"][1]["used"], "refused");
  EXPECT_EQ(j["tracks"][1]["reasons"][0], "known");
  // and again on another day
  const auto again = run_lodeway({"learn", party, "--track", two, "--keep"});
  expect_one_line(again, "refused");
}

TEST(LearnCommand, AMillionPointsAreReadInTime) {
  const TemporaryFolder f;
  const auto big = f.write("big.gpx", track(-40, 175, 1'000'000, 1));
  const auto o = run_lodeway({"learn", f / "party.toml", "--track", big, "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  // 1e6 seconds at 1.1 m/s
  EXPECT_NEAR(json::parse(o.out)["tracks"][0]["learned_km"].get<double>(), 1100, 40);
}

TEST(LearnCommand, APartyFileOfANewerVersionIsRefused) {
  const TemporaryFolder f;
  const auto party = f.write("party.toml", "version = 99\nname = \"x\"\n");
  const auto walk = f.write("walk.gpx", track(54.5, -2.9, 500));
  expect_one_line(run_lodeway({"learn", party, "--track", walk, "--keep"}), "newer Lodeway");
  EXPECT_EQ(support::read_text(party), "version = 99\nname = \"x\"\n");
}

TEST(LearnCommand, MarksOfAnotherGroundAreRefused) {
  const TemporaryFolder f;
  const auto marks = f.write("marks.toml",
                             "version = 1\nday = \"000000-7\"\ndate = 2026-10-03\n"
                             "[[marks]]\nexercise = \"forks\"\ntrials = 12\nmissed = 1\n");
  expect_one_line(
      run_lodeway({"learn", f / "party.toml", "--marks", marks, "--ground", ground(), "--keep"}),
      "was not made from this ground");
}

std::string example() {
  return support::read_text(support::tests_folder() + "/../examples/skarrow-round.toml");
}
std::string trip_with_party(const TemporaryFolder& f) {
  auto text = example();
  const auto at = text.find("[party]\n");
  EXPECT_NE(at, std::string::npos);
  text.insert(at + 8, "file = \"party.toml\"\n");
  const auto named = text.find("ground = \"skarrow.gpkg\"");
  EXPECT_NE(named, std::string::npos);
  text.replace(named, 23, "ground = \"" + ground() + "\"");
  return f.write("trip.toml", text);
}
std::string counts(int ends_missed, int lines_missed) {
  return fmt::format(
      "version = 1\nname = \"four\"\n"
      "[[measured]]\ndate = 2026-11-01\nexercise = \"features\"\ntraining = false\n"
      "trials = 40\nmissed = {}\n"
      "[[measured]]\ndate = 2026-11-01\nexercise = \"lines\"\ntraining = false\n"
      "trials = 40\nmissed = {}\n",
      ends_missed, lines_missed);
}
json way_of(const std::string& trip) {
  const auto o = run_lodeway({"way", trip, "--json"});
  EXPECT_TRUE(o.status == 0 || o.status == 3) << o.err;
  return json::parse(o.out);
}

TEST(PartyOfATrip, BetterCountsRaiseTheCertaintyAndWorseLowerIt) {
  const TemporaryFolder f;
  const auto trip = trip_with_party(f);
  const auto by = [&](const std::string& party) {
    f.write("party.toml", party);
    return way_of(trip)["certainty"].get<double>();
  };
  const double table = by("version = 1\nname = \"four\"\n");
  const double good = by(counts(0, 0)), bad = by(counts(20, 20));
  EXPECT_GT(good, table + 0.02);
  EXPECT_LT(bad, table - 0.02);
}

TEST(PartyOfATrip, ATableTakenAsKnownSaysMoreThanItsMeanAndBothAreSaid) {
  const TemporaryFolder f;
  const auto trip = trip_with_party(f);
  f.write("party.toml", "version = 1\nname = \"four\"\n");
  const auto w = way_of(trip);
  EXPECT_LT(w["certainty"].get<double>(), w["certainty_as_known"].get<double>());
  const auto words = w["certainty_words"].get<std::string>();
  EXPECT_NE(words.find("not known of this party"), std::string::npos) << words;
  const auto text = run_lodeway({"way", trip});
  EXPECT_NE(text.out.find(words), std::string::npos) << text.out;
}

TEST(LearnCommand, SaysWhichLegsOfTheLastTripChangeTheirVerdict) {
  const TemporaryFolder f;
  const auto trip = trip_with_party(f);
  const auto party = f.write("party.toml", "version = 1\nname = \"four\"\n");
  const auto marks =
      f.write("marks.toml",
              "version = 1\ndate = 2026-11-01\ntraining = false\n[[marks]]\nexercise = "
              "\"features\"\ntrials = 40\nmissed = 25\n");
  const std::vector<std::string> words{"learn", party, "--marks", marks, "--trip", trip};
  auto as_json = words;
  as_json.emplace_back("--json");
  const auto o = run_lodeway(as_json);
  ASSERT_EQ(o.status, 0) << o.err;
  const auto t = json::parse(o.out)["trip"];
  ASSERT_GE(t["legs"].size(), 3U);
  EXPECT_LT(t["now"]["kept"].get<double>(), t["before"]["kept"].get<double>());
  int changed = 0;
  for (const auto& leg : t["legs"]) {
    EXPECT_EQ(leg["changed"].get<bool>(), leg["before"]["verdict"] != leg["now"]["verdict"]);
    EXPECT_LE(leg["now"]["kept"].get<double>(), leg["before"]["kept"].get<double>() + 1e-9);
    changed += static_cast<int>(leg["changed"].get<bool>());
  }
  EXPECT_GE(changed, 1);
  const auto text = run_lodeway(words);
  EXPECT_EQ(text.status, 0) << text.err;
  int lines = 0;
  for (std::size_t at = 0; (at = text.out.find(", it was ", at)) != std::string::npos; ++at)
    ++lines;
  EXPECT_EQ(lines, changed) << text.out;
}

// A track of another grid zone, and one at sea: neither is a walk of this trip.
TEST(DebriefCommand, ATrackOfAnotherGroundIsRefused) {
  const TemporaryFolder f;
  const auto trip = f.write("trip.toml", example());
  for (const auto& [lat, lon] : {std::pair{46.5, 11.3}, std::pair{30.0, -40.0}}) {
    const auto other = f.write("other.gpx", track(lat, lon, 400));
    const auto o =
        run_lodeway({"debrief", trip, "--ground", ground(), "--track", other, "--out", f / "out"});
    expect_one_line(o, "ground");
    EXPECT_FALSE(std::ifstream(f / "out/debrief.pdf").good());
  }
}

}  // namespace
}  // namespace lodeway
