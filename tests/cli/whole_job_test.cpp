// The main job from a trip file to paper, on the invented ground, through the program itself.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <iterator>
#include <map>
#include <regex>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/support.hpp"

namespace lodeway {
namespace {

using nlohmann::json;
using support::run_lodeway;

/// One demo ground for all tests of this file.
const std::string& ground() {
  static const support::TemporaryFolder folder;
  static const std::string path = [] {
    auto made = folder / "skarrow.gpkg";
    const auto o = support::skarrow_ground(made);
    EXPECT_EQ(o.status, 0) << o.err;
    return made;
  }();
  return path;
}

std::string example() {
  return lodeway::support::tests_folder() + "/../examples/skarrow-round.toml";
}

/// 0: within or close to the limits; 3: outside them or not judged. Both are answers.
bool answered(const support::Outcome& o) { return o.status == 0 || o.status == 3; }

json way_of(const std::string& trip) {
  const auto o = run_lodeway({"way", trip, "--ground", ground(), "--json"});
  EXPECT_TRUE(answered(o)) << o.err;
  if (!answered(o)) return {};
  auto out = json::parse(o.out);
  const auto band = out["verdict"]["band"].get<std::string>();
  EXPECT_EQ(o.status == 3, band == "outside" || band == "not_judged") << band;
  return out;
}

std::string trip_text(const std::string& head, const std::string& points,
                      const std::string& more = "") {
  return "ground = \"x.gpkg\"\nname = \"test\"\n" + head + "\n" + points + "\n" + more;
}
const std::string day = "date = 2026-07-01\nstart = \"08:00\"\nzone = \"Europe/Dublin\"";
const std::string two_points =
    "[[point]]\nname = \"Fallow Bridge\"\nat = \"481949 6050540\"\n"
    "[[point]]\nname = \"Low Hause\"\nat = \"481825 6051645\"\n";

void expect_refused(const std::string& text, const std::string& says,
                    const std::string& command = "way") {
  const support::TemporaryFolder folder;
  support::write_text(folder / "trip.toml", text);
  std::vector<std::string> words{command, folder / "trip.toml", "--ground", ground()};
  if (command == "paper") words.insert(words.end(), {"--out", folder / "out"});
  const auto o = run_lodeway(words);
  EXPECT_EQ(o.status, 2) << text;
  EXPECT_EQ(std::ranges::count(o.err, '\n'), 1) << o.err;
  EXPECT_NE(o.err.find(says), std::string::npos) << o.err;
  EXPECT_TRUE(o.out.empty());
  EXPECT_FALSE(std::filesystem::exists(folder / "out/card.pdf"));
}

TEST(WholeJob, LegsJoinAndAddUp) {
  const auto w = way_of(example());
  ASSERT_GE(w["legs"].size(), 5U);
  double length = 0, minutes = 0;
  json before;
  for (const auto& leg : w["legs"]) {
    length += double{leg["length_m"]};
    minutes += double{leg["minutes"]};
    if (!before.is_null()) {
      EXPECT_EQ(leg["from"], before["to"]);
      EXPECT_EQ(leg["line"].front(), before["line"].back());
    }
    before = leg;
    EXPECT_GT(double{leg["length_m"]}, 0);
    EXPECT_GE(double{leg["certainty"]}, 0);
    EXPECT_LE(double{leg["certainty"]}, 1);
    for (const char* key : {"cross_sigma_m", "along_sigma_m", "aim_off_m", "aim_off_side",
                            "confusable", "catching", "hazard_probability"}) {
      EXPECT_TRUE(leg.contains(key)) << key;
    }
  }
  EXPECT_NEAR(length, w["length_m"], 1e-6);
  EXPECT_NEAR(minutes, w["minutes"], 1e-6);
  EXPECT_EQ(w["legs"].front()["from"], "Fallow Bridge");
  EXPECT_EQ(w["legs"].back()["to"], "Withen Bridge");
}

// A limit that cannot be kept: screen, JSON, card and home note name the same legs with the same
// figures, in the trip's units.
TEST(WholeJob, WhatFallsShortIsSaidEverywhereAlike) {
  const support::TemporaryFolder folder;
  const auto trip = folder / "trip.toml", paper = folder / "paper";
  support::write_text(
      trip, trip_text(day + "\nmin_certainty = 0.99",
                      two_points + "[[point]]\nname = \"Harrik\"\nat = \"483055 6053075\"\n",
                      "[party]\nvisibility = \"cloud\"\n[paper]\nunits = \"imperial\"\n"));
  const auto screen = run_lodeway({"way", trip, "--ground", ground()});
  // A leg is kept by fewer than 70 in 100: that is said first, and is the exit status of both.
  ASSERT_EQ(screen.status, 3) << screen.err;
  EXPECT_TRUE(screen.out.starts_with("Outside your limits\n")) << screen.out;
  const auto w = way_of(trip);
  EXPECT_EQ(w["verdict"]["band"], "outside");
  ASSERT_EQ(run_lodeway({"paper", trip, "--ground", ground(), "--out", paper}).status, 3);
  const auto card = support::read_text(paper + "/card.txt");
  std::string short_of;
  for (const auto& leg : w["legs"]) {
    if (!leg["fix_at_end"].get<bool>()) continue;
    // the low end of what a third off in the table of chances gives
    const double low = leg["certainty_low"];
    EXPECT_LE(low, double{leg["certainty"]});
    EXPECT_LE(double{leg["certainty"]}, double{leg["certainty_high"]});
    const auto figure = std::to_string(int(std::floor(100 * low + 1e-9)));
    EXPECT_NE(screen.out.find("     " + figure + " to "), std::string::npos);
    EXPECT_NE(card.find("\n   " + figure + " in 100\n"), std::string::npos) << card;
    if (low >= 0.99) continue;
    const auto number = std::to_string(int{leg["leg"]});
    short_of += (short_of.empty() ? "leg " : ", leg ") + number + " (" + figure + ")";
    EXPECT_NE(screen.out.find("CAUTION: Leg " + number + ": " + figure + " in 100 keep it"),
              std::string::npos);
  }
  ASSERT_FALSE(short_of.empty());
  const auto remark = "fewer than your limit of 99 in 100 keep these: " + short_of;
  for (const auto& way : w["ways"]) {
    if (!way["picked"].get<bool>()) continue;
    ASSERT_FALSE(way["remarks"].empty());
    EXPECT_EQ(way["remarks"][0], remark);
    EXPECT_NE(screen.out.find("\n" + std::string(way["name"]) + ": " + remark + "\n"),
              std::string::npos)
        << screen.out;
  }
  static const std::regex metres(R"([0-9] m\b)");  // but "1 mm is 25 m" of the map's scale
  const auto told = std::regex_replace(card, std::regex("1 mm is 25 m"), "");
  EXPECT_FALSE(std::regex_search(told, metres)) << card;
  EXPECT_FALSE(std::regex_search(screen.out, metres)) << screen.out;
}

// A leg that ends where nothing is to be seen has no certainty of its own: nowhere a "100 in 100".
// And what the screen cautions of, the paper's list does in the same words.
TEST(WholeJob, WhereThereIsNoFixNoCertaintyIsSaid) {
  const support::TemporaryFolder folder;
  const auto trip = folder / "trip.toml";
  support::write_text(
      trip, trip_text(day,
                      "[[point]]\nname = \"a\"\nat = \"482595 6052025\"\n"
                      "[[point]]\nname = \"nowhere\"\nat = \"482760 6052420\"\nget_here = "
                      "\"bearing\"\n[[point]]\nname = \"Harrik Pike\"\nat = \"483055 "
                      "6053075\"\nget_here = \"bearing\"\n"));
  const auto screen = run_lodeway({"way", trip, "--ground", ground()});
  ASSERT_EQ(screen.status, 0) << screen.err;
  const auto w = way_of(trip);
  ASSERT_EQ(w["legs"].size(), 2U);
  ASSERT_FALSE(w["legs"][0]["fix_at_end"].get<bool>());
  const auto first = screen.out.substr(0, screen.out.find("\n  2  "));
  EXPECT_NE(first.find("nothing to see at the end"), std::string::npos) << first;
  // Its escape route ends at a place that can be seen, and has a figure of its own.
  const auto itself = first.substr(0, first.find("escape route")).substr(first.find("\n  1  "));
  EXPECT_EQ(itself.find("in 100 keep it"), std::string::npos) << itself;
  const auto why = run_lodeway({"way", trip, "--ground", ground(), "--explain", "1"});
  EXPECT_NE(why.out.find("nothing is to be seen at its end"), std::string::npos) << why.out;
  const auto none = run_lodeway({"way", trip, "--ground", ground(), "--explain", "3"});
  EXPECT_EQ(none.status, 2);
  EXPECT_NE(
      none.err.find(
          "trip.toml: leg: expected 1 to 2, the legs of the way picked (given by the leader)"),
      std::string::npos)
      << none.err;
  const auto paper = run_lodeway({"paper", trip, "--ground", ground(), "--out", folder / "paper"});
  const auto as_json =
      run_lodeway({"paper", trip, "--ground", ground(), "--out", folder / "paper", "--json"});
  EXPECT_EQ(json::parse(as_json.out)["warnings"], w["warnings"]);
  for (const auto& warning : w["warnings"]) {
    if (warning["severity"] == "note") continue;
    auto line = warning["severity"].get<std::string>();
    std::ranges::transform(line, line.begin(), [](unsigned char c) { return std::toupper(c); });
    line += ": " + warning["text"].get<std::string>() + "\n";
    EXPECT_NE(screen.out.find(line), std::string::npos) << line;
    EXPECT_NE(paper.out.find(line), std::string::npos) << line;
  }
}

// Whatever is asked about a way, its verdict comes first, the same to people and to programs.
TEST(WholeJob, EveryAnswerBeginsWithTheVerdict) {
  const support::TemporaryFolder folder;
  const auto trip = example();
  const auto verdict = way_of(trip)["verdict"];
  const auto headline = verdict["headline"].get<std::string>() + "\n";
  const std::vector<std::vector<std::string>> asked{
      {"way", trip, "--ground", ground()},
      {"rehearse", trip, "--ground", ground(), "--walkers", "200"},
      {"paper", trip, "--ground", ground(), "--out", folder / "paper"}};
  for (auto words : asked) {
    const auto text = run_lodeway(words);
    EXPECT_EQ(text.out.find(headline), 0U) << words[0] << ": " << text.out.substr(0, 200);
    for (const auto& sentence : verdict["sentences"])
      EXPECT_NE(text.out.find(sentence.get<std::string>()), std::string::npos) << words[0];
    words.emplace_back("--json");
    EXPECT_EQ(json::parse(run_lodeway(words).out)["verdict"], verdict) << words[0];
  }
}

// The names of the three ways before version 0.2 are answered with those of today.
TEST(WholeJob, AnOldNameOfAWayIsAnsweredWithTheNewOne) {
  const auto old = run_lodeway({"way", "no.toml", "--pick", "surest"});
  EXPECT_EQ(old.status, 2);
  EXPECT_EQ(old.err,
            "lodeway: --pick: the way called 'surest' before is now called 'sure': expected quick, "
            "middle or sure\n");
}

// A ground that the trip names and that is not there: both files are said.
TEST(WholeJob, AGroundThatIsMissingIsSaidWithItsTrip) {
  const support::TemporaryFolder folder;
  const auto trip = folder / "trip.toml";
  support::write_text(trip, trip_text(day, two_points));
  const auto o = run_lodeway({"way", trip});
  EXPECT_EQ(o.status, 2);
  EXPECT_EQ(o.err, "lodeway: " + trip + ": ground: " + (folder / "x.gpkg") +
                       ": expected a ground file, found none\n");
}

// By hand from the published formulas, on every bearing leg: direction and millimetres from its
// start to its aim; magnetic = grid - (D - convergence) with the norths printed by `lodeway north`
// for that place.
void expect_by_hand(const json& leg, const std::string& date) {
  const auto a = leg["line"].front(), b = leg["on_the_needle"]["aim_grid_m"];
  const double e = double{b[0]} - double{a[0]}, n = double{b[1]} - double{a[1]};
  double grid = std::atan2(e, n) * 180 / std::acos(-1.0);
  if (grid < 0) grid += 360;
  EXPECT_NEAR(leg["grid_bearing_deg"], grid, 1e-9);
  EXPECT_NEAR(leg["map_mm"], std::hypot(e, n) / 25, 1e-9);
  const auto place = "29N " + std::to_string(double{a[0]}) + " " + std::to_string(double{a[1]});
  const auto north = run_lodeway({"north", "--at", place, "--date", date, "--json"});
  const double gma = json::parse(north.out)["grid_magnetic_deg"];
  const double magnetic = leg["magnetic_bearing_deg"], back = leg["back_bearing_deg"];
  EXPECT_NEAR(std::remainder(magnetic - (grid - gma), 360), 0, 0.002);
  EXPECT_NEAR(std::remainder(back - magnetic - 180, 360), 0, 1e-9);
  EXPECT_EQ(leg["first_magnetic_bearing_deg"], leg["magnetic_bearing_deg"]);
  for (const char* key : {"magnetic_bearing_deg", "grid_bearing_deg", "map_mm", "double_paces"})
    EXPECT_EQ(leg[key], leg["on_the_needle"][key]) << key;
}

TEST(WholeJob, BearingsAgreeWithHandCalculation) {
  const auto w = way_of(example());
  int checked = 0;
  for (const auto& leg : w["legs"]) {
    if (leg["kind"] != "bearing") continue;
    expect_by_hand(leg, "2026-11-14");
    ++checked;
  }
  EXPECT_GT(checked, 0);
}

// A leg that is aimed off: the aim lies beside the end by aim_off_m along the line met, both parts
// add up, and screen, card, card as CSV, sheet and JSON have one figure of millimetres.
TEST(WholeJob, AnAimedLegIsTheSameOnEveryPaper) {
  const auto trip = support::tests_folder() + "/../examples/to-the-hut-cloud.toml";
  const auto w = way_of(trip);
  const support::TemporaryFolder folder;
  // novices in cloud: outside their limits, and told so, but they have their paper
  ASSERT_EQ(run_lodeway({"paper", trip, "--ground", ground(), "--out", folder / "paper"}).status,
            3);
  const auto card = support::read_text(folder / "paper/card.txt");
  const auto csv = support::read_text(folder / "paper/card.csv");
  const auto sheet = folder / "sheet.txt";
  ASSERT_EQ(std::system(("pdftotext " + (folder / "paper/sheet-1.pdf") + " " + sheet).c_str()), 0);
  const auto on_sheet = support::read_text(sheet);
  const auto whole = [](const json& x) { return std::to_string(std::lround(double{x})); };
  int checked = 0;
  for (const auto& leg : w["legs"]) {
    if (double{leg["aim_off_m"]} == 0) continue;
    ++checked;
    expect_by_hand(leg, "2026-11-14");
    const auto &needle = leg["on_the_needle"], &after = leg["along_after"];
    const auto end = leg["line"].back(), aim = needle["aim_grid_m"];
    const double beside =
        std::hypot(double{end[0]} - double{aim[0]}, double{end[1]} - double{aim[1]});
    EXPECT_LE(beside, 1.001 * double{after["length_m"]});
    EXPECT_GT(beside, 0.8 * double{after["length_m"]});  // the line met is nearly straight there
    EXPECT_EQ(after["length_m"], leg["aim_off_m"]);
    EXPECT_NEAR(double{needle["length_m"]} + double{after["length_m"]}, leg["length_m"], 1e-9);
    EXPECT_NEAR(double{needle["minutes"]} + double{after["minutes"]}, leg["minutes"], 1e-9);
    // minutes and paces go with the metres of each part
    const double share = double{after["length_m"]} / double{needle["length_m"]};
    EXPECT_NEAR(after["minutes"], share * double{needle["minutes"]}, 1e-9);
    EXPECT_NEAR(after["double_paces"], share * double{needle["double_paces"]}, 1e-9);
    const auto mm = whole(needle["map_mm"]) + " mm";
    EXPECT_NE(card.find(whole(needle["length_m"]) + " m, " + mm), std::string::npos) << mm;
    EXPECT_NE(card.find(whole(after["length_m"]) + " m, " + whole(after["double_paces"])),
              std::string::npos);
    EXPECT_NE(on_sheet.find(mm), std::string::npos) << mm;
    EXPECT_NE(csv.find("," + whole(needle["length_m"]) + "," + whole(needle["map_mm"]) + ","),
              std::string::npos);
  }
  EXPECT_GT(checked, 0);
}

// Naismith with Langmuir on a leg's totals where nothing steep is lost: length / speed + climb /
// 600 m/h, times the centre 1.15 of its bands.
TEST(WholeJob, MinutesAgreeWithNaismithByHand) {
  const auto w = way_of(example());
  int checked = 0;
  for (const auto& leg : w["legs"]) {
    if (double{leg["descent_m"]} > 5)
      continue;  // Langmuir's corrections stay out of the hand's figure
    const double factor = leg["ground_factor"];
    const double by_hand =
        1.15 * (double{leg["length_m"]} / (4000.0 / 60 * factor) + double{leg["climb_m"]} / 10);
    EXPECT_NEAR(leg["minutes"], by_hand, 0.23);
    ++checked;
  }
  EXPECT_GT(checked, 0);
}

TEST(WholeJob, PaperIsWholeAndTrueToScale) {
  const support::TemporaryFolder folder;
  const auto o = run_lodeway({"paper", example(), "--ground", ground(), "--out", folder / "paper"});
  ASSERT_EQ(o.status, 0) << o.err;
  for (const char* name :
       {"sheet-1.pdf", "card.pdf", "home-note.pdf", "escape-card.pdf", "lost-card.pdf", "card.txt", "card.csv"}) {
    EXPECT_GT(std::filesystem::file_size(folder / (std::string("paper/") + name)), 500U) << name;
  }
  EXPECT_LT(std::filesystem::file_size(folder / "paper/sheet-1.pdf"), 3U << 20U);
  // Read back with poppler: the grid's figures stand over their lines, 1 km apart.
  const auto boxes = folder / "boxes.html";
  ASSERT_EQ(
      std::system(("pdftotext -bbox " + (folder / "paper/sheet-1.pdf") + " " + boxes).c_str()), 0);
  const auto text = support::read_text(boxes);
  const std::regex word(
      "xMin=\"([0-9.]+)\" yMin=\"([0-9.]+)\" xMax=\"([0-9.]+)\" yMax=\"([0-9.]+)\">(8[0-9])<");
  std::map<int, double> middles;
  double first_y = -1;
  for (auto m = std::sregex_iterator(text.begin(), text.end(), word); m != std::sregex_iterator();
       ++m) {
    const double y = std::stod((*m)[2]);
    if (first_y < 0) first_y = y;
    if (std::abs(y - first_y) < 0.5)
      middles[std::stoi((*m)[5])] = (std::stod((*m)[1]) + std::stod((*m)[3])) / 2;
  }
  ASSERT_GE(middles.size(), 3U);
  for (auto a = middles.begin(), b = std::next(a); b != middles.end(); ++a, ++b) {
    if (b->first != a->first + 1) continue;
    EXPECT_NEAR((b->second - a->second) * 25.4 / 72, 40.00, 0.05);  // 1 km of grid at 1:25 000
  }
  EXPECT_NE(text.find(">Harrik<"), std::string::npos);  // names can be found and copied
  const auto fonts = folder / "fonts.txt";
  ASSERT_EQ(std::system(("pdffonts " + (folder / "paper/sheet-1.pdf") + " > " + fonts).c_str()), 0);
  const auto list = support::read_text(fonts);
  EXPECT_NE(list.find("B612"), std::string::npos);
  EXPECT_EQ(list.find(" no  "), list.rfind(" no  ")) << list;  // every row: emb yes, sub yes
}

TEST(WholeJob, SameInputSameBytes) {
  const support::TemporaryFolder folder;
  for (const char* name : {"a", "b"}) {
    ASSERT_EQ(
        run_lodeway({"paper", example(), "--ground", ground(), "--out", folder / name}).status, 0);
  }
  for (const char* file : {"sheet-1.pdf", "card.pdf", "home-note.pdf", "card.csv"}) {
    EXPECT_EQ(support::read_text(folder / (std::string("a/") + file)),
              support::read_text(folder / (std::string("b/") + file)))
        << file;
  }
}

TEST(WholeJob, GpxOutAndInAgain) {
  const support::TemporaryFolder folder;
  ASSERT_EQ(run_lodeway({"way", example(), "--ground", ground(), "--gpx", folder / "way.gpx",
                         "--geojson", folder / "way.geojson"})
                .status,
            0);
  const auto geo = json::parse(support::read_text(folder / "way.geojson"));
  const auto w = way_of(example());
  EXPECT_EQ(geo["features"].size(), w["legs"].size());
  support::write_text(folder / "trip.toml",
                      trip_text(day, "gpx = \"way.gpx\"\ngpx_stretch = \"find\""));
  const auto again = run_lodeway({"way", folder / "trip.toml", "--ground", ground(), "--json"});
  ASSERT_TRUE(answered(again)) << again.err;
  EXPECT_EQ(json::parse(again.out)["legs"].front()["from"], "Fallow Bridge");
}

TEST(WholeJob, LeadersOwnLegsAreKept) {
  const support::TemporaryFolder folder;
  support::write_text(
      folder / "trip.toml",
      trip_text(day,
                "[[point]]\nname = \"Quenna Hause\"\nat = \"482595 6052025\"\n"
                "[[point]]\nname = \"Moor\"\nat = \"482750 6052500\"\nget_here = \"bearing\"\n"));
  const auto w = way_of(folder / "trip.toml");
  ASSERT_EQ(w["legs"].size(), 1U);
  EXPECT_EQ(w["legs"][0]["kind"], "bearing");
  EXPECT_EQ(w["way"], "given by the leader");
}

TEST(BadTrips, OneLineEach) {
  expect_refused(
      trip_text("date = 2026-07-01\nstart = \"08:00\"", two_points, "[party]\nsize = \"four\""),
      "party.size");
  expect_refused(trip_text(day, two_points, "[[safe]]\nname = \"Tent\"\nat = \"400000 6000000\""),
                 "safe[1].at: place \"400000 6000000\": expected a place on the ground; this one "
                 "lies 90.6 km outside it, to the south-west");
  expect_refused(
      trip_text(day, "[[point]]\nname = \"a\"\nat = \"by the mill\"\n" + two_points),
      "point[1].at: expected a grid reference or the name of a thing on the map, as it stands there; "
      "got \"by the mill\"");
  expect_refused(trip_text(day, two_points, "[party]\nspeeed = 4"), "speeed");
  expect_refused(trip_text("date = 1999-07-01\nstart = \"08:00\"", two_points), "2025-01-01");
  expect_refused(trip_text("date = 2031-07-01\nstart = \"08:00\"", two_points), "2029-12-31");
  expect_refused(trip_text("date = \"2026-02-30\"\nstart = \"08:00\"", two_points),
                 "day of the calendar");
  expect_refused(trip_text("date = 2026-07-01\nstart = \"25:00\"", two_points), "start");
  expect_refused(trip_text(day, "[[point]]\nat = \"481949 6050540\"\n"), "two [[point]]");
  expect_refused(trip_text(day, "[[point]]\nat = \"481949 6050540\"\n[[point]]\nat = \"0 0\"\n"),
                 "");
  expect_refused(
      trip_text(day, "[[point]]\nat = \"481949 6050540\"\n[[point]]\nat = \"481949 6050540\"\n"),
      "same");
  expect_refused(trip_text(day,
                           "[[point]]\nname = \"tarn\"\nat = \"481379 6052254\"\n[[point]]\nat = "
                           "\"481949 6050540\"\n"),
                 "water");
  expect_refused(
      trip_text(day, "[[point]]\nat = \"500000 6060000\"\n[[point]]\nat = \"481949 6050540\"\n"),
      "lies 10.2 km outside it, to the north-east");
  expect_refused(trip_text(day, two_points, "[paper]\nscale = 0"), "scale", "paper");
  expect_refused(trip_text(day, two_points, "[paper]\nsize = \"A9\""), "A4");
  expect_refused(trip_text("date = 2026-07-01\nstart = \"08:00\"\nzone = \"Moon/Sea\"", two_points),
                 "IANA");
  expect_refused("this is = not [ toml", "TOML");
  expect_refused(trip_text(day, two_points,
                           "[[avoid]]\nring = [\"481949 6050540\", "
                           "\"481950 6050541\", \"481951 6050542\"]"),
                 "ground between them");
  expect_refused(trip_text(day, "[[point]]\nat = \"up there\"\n"),
                 "at: expected a grid reference or the name of a thing on the map, as it stands there; got "
                 "\"up there\"");
  expect_refused("name = \"" + std::string(3U << 20U, 'x') + "\"", "1 MiB");
}

TEST(BadTrips, NoFolderNoPaper) {
  const auto o =
      run_lodeway({"paper", example(), "--ground", ground(), "--out", "/dev/null/paper"});
  EXPECT_EQ(o.status, 2);
  EXPECT_NE(o.err.find("/dev/null/paper"), std::string::npos);
}

}  // namespace
}  // namespace lodeway
