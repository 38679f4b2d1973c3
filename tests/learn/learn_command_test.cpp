// `lodeway learn`, `train` and `debrief` through the program: what is refused and how it is said,
// what JSON carries, exit codes, and that a party file moves the certainty of a trip that names it.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <fstream>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "learn/made_tracks.hpp"
#include "lodeway/earth/map_grid.hpp"
#include "support/support.hpp"

namespace lodeway {
namespace {

using learn::made_track;
using learn::stamp;
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
    const auto o = support::skarrow_ground(made);
    EXPECT_EQ(o.status, 0) << o.err;
    return made;
  }();
  return path;
}

/// Along a line of the demo ground's grid (UTM zone 29 north) at 4 km/h, a point each 10 s.
std::string walked_on_grid(const std::vector<earth::GridPoint>& line) {
  const auto grid = earth::MapGrid::from_text("EPSG:32629");
  EXPECT_TRUE(grid);
  std::string out =
      "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\" creator=\"t\" "
      "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n";
  double t = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const auto d = line[i] - line[i - 1];
    const double length = earth::length_of(d);
    for (double s = 0; s < length; s += 4 / 0.36, t += 10) {
      const auto at = grid->to_geographic(line[i - 1] + (s / length) * d);
      EXPECT_TRUE(at);
      out += fmt::format("<trkpt lat=\"{:.7f}\" lon=\"{:.7f}\"><time>{}</time></trkpt>\n",
                         at->lat_deg, at->lon_deg, stamp(t));
    }
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
  const auto walk = f.write("walk.gpx", made_track(54.5, -2.9, 500));
  const auto short_walk = f.write("short.gpx", made_track(54.5, -2.9, 20));
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
  const auto short_walk = f.write("short.gpx", made_track(54.5, -2.9, 20));
  const auto o = run_lodeway({"learn", f / "party.toml", "--track", short_walk, "--keep"});
  expect_one_line(o, "refused");
  EXPECT_EQ(f.count(), 1);
}

TEST(LearnCommand, TheSameWalkUnderAnotherNameIsKnownAlready) {
  const TemporaryFolder f;
  const auto text = made_track(54.5, -2.9, 500);
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
  const auto big = f.write("big.gpx", made_track(-40, 175, 1'000'000, 1));
  const auto o = run_lodeway({"learn", f / "party.toml", "--track", big, "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  // 1e6 seconds at 1.1 m/s
  EXPECT_NEAR(json::parse(o.out)["tracks"][0]["learned_km"].get<double>(), 1100, 40);
}

TEST(LearnCommand, APartyFileOfANewerVersionIsRefused) {
  const TemporaryFolder f;
  const auto party = f.write("party.toml", "version = 99\nname = \"x\"\n");
  const auto walk = f.write("walk.gpx", made_track(54.5, -2.9, 500));
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
  EXPECT_NE(words.find("figures taken as known"), std::string::npos) << words;
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
    const auto other = f.write("other.gpx", made_track(lat, lon, 400));
    const auto o =
        run_lodeway({"debrief", trip, "--ground", ground(), "--track", other, "--out", f / "out"});
    expect_one_line(o, "ground");
    EXPECT_FALSE(std::ifstream(f / "out/debrief.pdf").good());
  }
}

std::string marks_with(const std::string& rows) {
  return "version = 1\ndate = 2026-10-03\n" + rows;
}

// What no marks can be: refused in one line with the file and the key, and nothing is written.
TEST(LearnCommand, ImpossibleMarksAreRefusedAndNothingIsWritten) {
  const TemporaryFolder f;
  const auto party = f / "party.toml";
  for (const auto& [rows, says] :
       {std::pair<std::string, std::string>{
            "[[marks]]\nexercise = \"forks\"\ntrials = 10\nmissed = 11\n",
            "missed: expected at most the 10 trials, got 11"},
        {"[[marks]]\nexercise = \"bearing\"\nleg_m = 400\nacross_m = [12, -900]\n",
         "across_m: expected at most 200 m off on a leg of 400 m, got -900"},
        {"[[marks]]\nexercise = \"forks\"\ntrials = 0\nmissed = 0\n", "an empty box is not 0"},
        {"[[marks]]\nexercise = \"pacing\"\nground = \"level\"\ncourse_m = 100\ndouble_paces = "
         "[900]\n",
         "double_paces: expected"}}) {
    const auto marks = f.write("marks.toml", marks_with(rows));
    const auto o = run_lodeway({"learn", party, "--marks", marks, "--keep"});
    expect_one_line(o, says);
    EXPECT_NE(o.err.find("marks.toml"), std::string::npos) << o.err;
    EXPECT_FALSE(std::ifstream(party).good());
  }
}

// A number that was forgotten is asked for by its key and course; it is never taken as 0, and an
// exercise in which nothing stands is left out.
TEST(LearnCommand, ANumberThatIsMissingIsAskedFor) {
  const TemporaryFolder f;
  for (const auto& [row, says] :
       {std::pair<std::string, std::string>{"exercise = \"forks\"\ntrials = 12\n",
                                            "missed: forks: expected how many of the trials"},
        {"exercise = \"forks\"\ntrials = 12\nmissed = \"\"\n",
         "missed: forks: expected how many of the trials"},
        {"exercise = \"forks\"\nmissed = 3\n", "trials: forks: expected how many were tried"},
        {"exercise = \"setting\"\ntrials = 120\n", "missed: setting: expected"},
        {"exercise = \"lines\"\ntrials = 9\n", "missed: lines: expected"},
        {"exercise = \"features\"\ncourse = \"F\"\ntrials = 10\n", "missed: features F: expected"},
        {"exercise = \"features\"\ntrials = 10\nmissed = 2\nfound = 8\n",
         "exposure_per_m: features: expected the metres searched"},
        {"exercise = \"features\"\ntrials = 10\nmissed = 2\nexposure_per_m = 0.3\n",
         "found: features: expected how many were found"},
        {"exercise = \"drops\"\ntrials = 3\nheight_off_m = [4]\n", "missed: drops: expected"},
        {"exercise = \"followed\"\nkind = \"path\"\nwalked_km = 8\n",
         "missed: followed: expected how often"},
        {"exercise = \"followed\"\nkind = \"path\"\nmissed = 1\n",
         "walked_km: followed: expected how many kilometres"},
        {"exercise = \"pacing\"\nground = \"up\"\ndouble_paces = [64]\n",
         "course_m: pacing: expected the length"},
        {"exercise = \"pacing\"\ncourse_m = 100\ndouble_paces = [64]\n",
         "ground: pacing: expected level, up"},
        {"exercise = \"bearing\"\nacross_m = [7]\n", "leg_m: expected metres"},
        {"exercise = \"time\"\nguessed_min = [7]\n",
         "guessed_min: expected as many as true_min"}}) {
    const auto marks = f.write("marks.toml", marks_with("[[marks]]\n" + row));
    const auto o = run_lodeway({"learn", f / "party.toml", "--marks", marks, "--keep"});
    expect_one_line(o, says);
    EXPECT_NE(o.err.find("marks.toml:"), std::string::npos) << o.err;  // with the line
    EXPECT_FALSE(std::ifstream(f / "party.toml").good());
  }
  // Nothing in it at all: not done. The other one counts.
  const auto marks = f.write(
      "marks.toml", marks_with("[[marks]]\nexercise = \"forks\"\ntrials = \"\"\nmissed = \"\"\n"
                               "[[marks]]\nexercise = \"lines\"\ntrials = 9\nmissed = 0\n"));
  const auto o = run_lodeway({"learn", f / "party.toml", "--marks", marks, "--keep", "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  EXPECT_EQ(json::parse(o.out)["marks_taken"], 1);
  // What was kept can be read again.
  const auto again = f.write("more.toml", marks_with("[[marks]]\nexercise = \"drops\"\n"
                                                     "height_off_m = [4, -9]\n"));
  EXPECT_EQ(run_lodeway({"learn", f / "party.toml", "--marks", again, "--keep"}).status, 0);
  EXPECT_EQ(run_lodeway({"learn", f / "party.toml", "--marks", marks}).status, 2);  // known already
}

TEST(LearnCommand, APartyFileOfANewerVersionIsRefusedAndLeftAsItIs) {
  const TemporaryFolder f;
  const std::string text = "version = 2\nname = \"four\"\n";
  const auto party = f.write("party.toml", text);
  const auto marks = f.write(
      "marks.toml", marks_with("[[marks]]\nexercise = \"forks\"\ntrials = 9\nmissed = 0\n"));
  expect_one_line(run_lodeway({"learn", party, "--marks", marks, "--keep"}), "newer Lodeway");
  EXPECT_EQ(support::read_text(party), text);
}

TEST(LearnCommand, OddMarksAreAskedAbout) {
  const TemporaryFolder f;
  const auto marks = f.write(
      "marks.toml", marks_with("[[marks]]\nexercise = \"pacing\"\nground = \"level\"\ncourse_m = "
                               "100\ndouble_paces = [126, 124]\n"
                               "[[marks]]\nexercise = \"bearing\"\nleg_m = 400\n"
                               "across_m = [30, 28, 35, 31, 29, 33]\n"));
  const auto english = run_lodeway({"learn", f / "p.toml", "--marks", marks});
  EXPECT_NE(english.out.find("single paces counted as double ones?"), std::string::npos)
      << english.out;
  EXPECT_NE(english.out.find("was the declination set"), std::string::npos) << english.out;
  const auto german = run_lodeway({"learn", f / "p.toml", "--marks", marks, "--language", "de"});
  EXPECT_NE(german.out.find("einfache Schritte als doppelte gezählt?"), std::string::npos);
  EXPECT_NE(german.out.find("war die Missweisung eingestellt"), std::string::npos);
  for (const char* word : {"Party", "table", "before", "Ask first", "Not shown", "in 100"})
    EXPECT_EQ(german.out.find(word), std::string::npos) << german.out;
}

TEST(TrainCommand, TheSameSeedGivesTheSameBytesAndItsMarksAreTakenOnItsGroundOnly) {
  const TemporaryFolder f;
  const std::vector<std::string> asked{"train",  ground(), "--from", "Low Hause",
                                       "--seed", "7",      "--date", "2026-10-03"};
  for (const char* folder : {"a", "b"}) {
    auto words = asked;
    words.insert(words.end(), {"--out", f / folder});
    const auto o = run_lodeway(words);
    ASSERT_EQ(o.status, 0) << o.err;
  }
  for (const char* file : {"course-sheet.pdf", "answer-sheet.pdf", "marking-sheet.pdf",
                           "map-piece.pdf", "marks.toml"}) {
    const auto a = support::read_text(f / (std::string("a/") + file));
    EXPECT_FALSE(a.empty()) << file;
    EXPECT_EQ(a, support::read_text(f / (std::string("b/") + file))) << file;
  }
  auto marks = support::read_text(f / "a/marks.toml");
  const auto put = [&](const std::string& key, const std::string& value) {
    const auto at = marks.find(key);
    ASSERT_NE(at, std::string::npos) << key;
    marks.replace(at, key.size(), value);
  };
  put("date = \"\"", "date = 2026-10-03");
  const auto blank = f.write("a/blank.toml", marks);
  expect_one_line(run_lodeway({"learn", f / "p.toml", "--marks", blank, "--keep"}),
                  "an empty box is not 0");
  put("trials = \"\"\nmissed = \"\"", "trials = 120\nmissed = 2");
  const auto filled = f.write("a/filled.toml", marks);
  const auto o = run_lodeway({"learn", f / "p.toml", "--marks", filled, "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  EXPECT_EQ(json::parse(o.out)["marks_taken"], 1);
  // Marks of another day: its rows carry other signs, and are refused before the ground is looked
  // at.
  auto folder_of_eight = asked;
  folder_of_eight[5] = "8";
  folder_of_eight.insert(folder_of_eight.end(), {"--out", f / "c"});
  ASSERT_EQ(run_lodeway(folder_of_eight).status, 0);
  const auto of_eight = support::read_text(f / "c/marks.toml");
  const auto day_line = [](const std::string& text) {
    const auto at = text.find("day = ");
    return text.substr(at, text.find('\n', at) - at);
  };
  EXPECT_NE(day_line(of_eight), day_line(marks));
  auto mixed = marks;
  mixed.replace(mixed.find(day_line(marks)), day_line(marks).size(), day_line(of_eight));
  const auto strange = f.write("a/strange.toml", mixed);
  expect_one_line(run_lodeway({"learn", f / "p.toml", "--marks", strange, "--keep"}),
                  "is no course of day");
  EXPECT_FALSE(std::ifstream(f / "p.toml").good());
  const auto other = f / "other.gpkg";
  ASSERT_EQ(run_lodeway({"ground", "demo", other, "--seed", "9"}).status, 0);
  expect_one_line(
      run_lodeway({"learn", f / "p.toml", "--marks", filled, "--ground", other, "--keep"}),
      "was not made from this ground");
}

TEST(TrainCommand, SaysItInGermanAndRefusesAPlaceThatIsNone) {
  const TemporaryFolder f;
  const auto o = run_lodeway(
      {"train", ground(), "--from", "Low Hause", "--date", "2026-10-03", "--language", "de"});
  ASSERT_EQ(o.status, 0) << o.err;
  EXPECT_NE(o.out.find("Geht jede Aufgabe vorher ab"), std::string::npos) << o.out;
  for (const char* word : {"Training", "Not here", " the ", " and "})
    EXPECT_EQ(o.out.find(word), std::string::npos) << word << " in " << o.out;
  expect_one_line(run_lodeway({"train", ground(), "--from", "No Such Place"}), "No Such Place");
}

// The table of chances reaches the parties that really walk, and what the trip states goes over it.
TEST(PartyOfATrip, LinesThatItLosesLoseWalkersOfTheRehearsal) {
  const TemporaryFolder f;
  const auto trip = trip_with_party(f);
  const auto kept = [&](const std::string& party, const std::string& file) {
    f.write("party.toml", party);
    const auto o = run_lodeway({"rehearse", file, "--walkers", "2000", "--json"});
    EXPECT_TRUE(o.status == 0 || o.status == 3) << o.err;
    const auto j = json::parse(o.out);
    return std::pair{j["walked"]["kept_all"].get<int>(), j["certainty"].get<double>()};
  };
  const std::string none = "version = 1\nname = \"four\"\n";
  const auto loses = none +
                     "[[measured]]\ndate = 2026-11-01\nexercise = \"followed\"\ntraining = false\n"
                     "kind = \"path\"\nwalked_km = 40\nmissed = 60\n";
  const auto before = kept(none, trip), after = kept(loses, trip);
  EXPECT_LT(after.first, before.first - 100);  // of 2000; two standard errors are 45
  EXPECT_LT(after.second, before.second - 0.1) << "the quick rehearsal reads the same table";
  // Stated: no path is ever lost
  auto text = support::read_text(trip);
  text +=
      "\n[chances.stay]\npath = [1, 1, 1, 1]\nfaint_path = [1, 1, 1, 1]\nmade_way = [1, 1, 1, 1]\n";
  const auto stated = f.write("stated.toml", text);
  EXPECT_GT(kept(loses, stated).first, after.first + 100);
}

TEST(DebriefCommand, AWalkAlongThePlanIsJudgedLegByLegInTheTripsLanguage) {
  const TemporaryFolder f;
  const auto text = example();
  const auto trip = f.write("trip.toml", text);
  const auto way = run_lodeway({"way", trip, "--ground", ground(), "--json"});
  const auto legs = json::parse(way.out)["legs"];
  ASSERT_GE(legs.size(), 3U);
  std::vector<earth::GridPoint> line;
  for (const auto& leg : legs) {
    for (const auto& p : leg["line"]) line.push_back({p[0], p[1]});
  }
  const auto gpx = f.write("walk.gpx", walked_on_grid(line));
  const auto o = run_lodeway(
      {"debrief", trip, "--ground", ground(), "--track", gpx, "--out", f / "out", "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  const auto j = json::parse(o.out);
  EXPECT_EQ(j["legs"].size(), legs.size());
  EXPECT_EQ(j["judged"].get<std::size_t>(), legs.size());
  for (const auto& leg : j["legs"]) {
    EXPECT_TRUE(leg["walked"]);
    EXPECT_TRUE(leg["left_the_way"].empty());
    EXPECT_LT(leg["across_p95_m"].get<double>(), 15);
  }
  ASSERT_EQ(j["notes"].size(), 1U);
  EXPECT_NE(j["notes"][0].get<std::string>().find("another day than the plan"), std::string::npos);
  for (const char* file : {"out/debrief.pdf", "out/seen.toml"})
    EXPECT_TRUE(std::ifstream(f / file).good()) << file;
  auto in_german = text;
  const auto language = in_german.find("language = \"en\"");
  ASSERT_NE(language, std::string::npos);
  in_german.replace(language, 15, "language = \"de\"");
  const auto german = f.write("de.toml", in_german);
  const auto said = run_lodeway({"debrief", german, "--ground", ground(), "--track", gpx});
  ASSERT_EQ(said.status, 0) << said.err;
  EXPECT_NE(said.out.find("Nachbesprechung"), std::string::npos) << said.out;
  EXPECT_NE(said.out.find("von einem anderen Tag als der Plan"), std::string::npos) << said.out;
  for (const char* word : {"Debrief", "legs", "outside", " to ", "The "})
    EXPECT_EQ(said.out.find(word), std::string::npos) << word << " in " << said.out;
}

}  // namespace
}  // namespace lodeway
