#include <algorithm>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/support.hpp"

namespace lodeway {
namespace {

using support::run_lodeway;

nlohmann::json answer(std::vector<std::string> words) {
  words.emplace_back("--json");
  const auto outcome = run_lodeway(words);
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  return nlohmann::json::parse(outcome.out);
}

void expect_refused(const std::vector<std::string>& words, const std::string& says) {
  const auto o = run_lodeway(words);
  EXPECT_EQ(o.status, 2) << words.back();
  EXPECT_EQ(std::ranges::count(o.err, '\n'), 1) << o.err;
  EXPECT_NE(o.err.find(says), std::string::npos) << o.err;
  EXPECT_TRUE(o.out.empty());
}

// Declination and its yearly change: npm geomagnetism 0.2.0; convergence: GeographicLib GeoConvert
// -c. On 2026-01-01, epoch 2026.0; figures as printed there.
TEST(North, WorkedPlaces) {
  struct Row {
    const char* at;
    double declination, convergence, grid_magnetic;
  };
  for (const auto& r :
       {Row{"46.5775 8.0059", 3.397, -0.722, 4.119}, Row{"60.3913 5.3221", 2.697, -3.199, 5.896},
        Row{"-43.595 170.1418", 24.266, 0.592, 23.674}}) {
    const auto a = answer({"north", "--at", r.at, "--date", "2026-01-01"});
    EXPECT_NEAR(a["declination_deg"], r.declination, 0.0006);
    EXPECT_NEAR(a["convergence_deg"], r.convergence, 0.0006);
    EXPECT_NEAR(a["grid_magnetic_deg"], r.grid_magnetic, 0.0011);
    EXPECT_EQ(a["zone"], "normal");
  }
  EXPECT_EQ(answer({"north", "--at", "86 142", "--date", "2026-01-01"})["zone"], "blackout");
  EXPECT_EQ(answer({"north", "--at", "72 -95", "--date", "2026-01-01"})["zone"], "caution");
}

// GeodSolve -i -p 6: 46.5775 8.0059 to 46.6 8.05 is 4204.558524 m at 53.48065942; the rest by hand.
TEST(Leg, WorkedLeg) {
  const auto a = answer({"leg", "--from", "46.5775 8.0059", "--to", "46.6 8.05", "--date",
                         "2026-01-01", "--scale", "50000", "--stride", "0.8", "--speed", "4"});
  EXPECT_NEAR(a["distance_m"], 4204.558524, 1e-6);
  EXPECT_NEAR(a["true_bearing_deg"], 53.48065942, 5e-9);
  EXPECT_NEAR(a["magnetic_bearing_deg"], 53.4807 - 3.397, 0.0006);
  EXPECT_NEAR(a["back_bearing_deg"], 53.4807 - 3.397 + 180, 0.0006);
  EXPECT_NEAR(a["double_paces"], 4204.558524 / 1.6, 1e-6);
  EXPECT_NEAR(a["minutes"], 4204.558524 / 4000 * 60, 1e-6);
  EXPECT_NEAR(a["map_mm"], double{a["grid_distance_m"]} / 50, 1e-9);
  // 1 km of grid is 1/0.99967 km of ground here: the two distances differ by the scale, 0.99967.
  EXPECT_NEAR(double{a["grid_distance_m"]} / double{a["distance_m"]}, 0.99967, 5e-6);
}

// Facts of the trade (common practice, no source): 1:50 000 1 mm is 50 m; 2 km at 4 km/h take 30
// min; with a stride of 0.8 m a kilometre is 625 double paces, usually counted as 620.
TEST(Leg, FactsOfTheTrade) {
  const auto a = answer({"leg", "--from", "30N 500000 5500000", "--to", "30N 500000 5502000",
                         "--date", "2026-01-01", "--scale", "50000"});
  EXPECT_NEAR(a["map_mm"], 40, 1e-3);
  EXPECT_NEAR(a["minutes"], 30.012,
              0.001);  // 2 km of grid at the middle meridian: 2000.8 m of ground
  EXPECT_NEAR(a["double_paces"], 1250.5, 0.01);
  const auto text = run_lodeway({"leg", "--from", "30N 500000 5500000", "--to",
                                 "30N 500000 5502000", "--date", "2026-01-01"})
                        .out;
  EXPECT_NE(text.find("625"), std::string::npos);
  EXPECT_NE(text.find("if you count 620, you stop 8 m short"), std::string::npos);
}

TEST(Sun, KeysAndStates) {
  const auto day =
      answer({"sun", "--at", "46.5775 8.0059", "--date", "2026-06-21", "--zone", "Europe/Zurich"});
  // PyEphem 4.1.4: 03:34:42 and 19:24:53 UTC.
  EXPECT_EQ(day["rise"].get<std::string>().substr(0, 16), "2026-06-21T05:34");
  EXPECT_EQ(day["set"].get<std::string>().substr(0, 16), "2026-06-21T21:24");
  EXPECT_TRUE(day["state"].is_null());
  // For people the same as clock times, to the nearest minute.
  const auto text = run_lodeway({"sun", "--at", "46.5775 8.0059", "--date", "2026-06-21", "--zone",
                                 "Europe/Zurich"})
                        .out;
  EXPECT_NE(text.find("sunrise      05:35\n"), std::string::npos) << text;
  EXPECT_NE(text.find("sunset       21:25\n"), std::string::npos) << text;
  const auto polar =
      answer({"sun", "--at", "69.65 18.96", "--date", "2026-06-21", "--zone", "Europe/Oslo"});
  EXPECT_TRUE(polar["rise"].is_null() && polar["civil_dusk"].is_null());
  EXPECT_NE(polar["state"].get<std::string>().find("does not set"), std::string::npos);
}

TEST(Units, TextInMilsAndFeet) {
  const auto o = run_lodeway({"leg", "--from", "46.5775 8.0059", "--to", "46.6 8.05", "--date",
                              "2026-01-01", "--angle", "mils", "--units", "imperial"});
  EXPECT_NE(o.out.find("0890 mil"), std::string::npos) << o.out;  // 50.084 degrees
  EXPECT_NE(o.out.find("2.6 mi"), std::string::npos) << o.out;
}

// JSON keeps the units that its keys name, whatever the text is asked to be written in.
TEST(Units, JsonIsTheSameInAllOfThem) {
  std::vector<std::string> words{"leg",       "--from", "46.5775 8.0059", "--to",
                                 "46.6 8.05", "--date", "2026-01-01"};
  const auto plain = answer(words);
  words.insert(words.end(), {"--angle", "mils", "--units", "imperial"});
  EXPECT_EQ(answer(words), plain);
}

TEST(Help, EachCommandHasAnExample) {
  const std::vector<std::vector<std::string>> commands{
      {"north"},          {"leg"},   {"sun"},      {"reckon"},   {"ground", "build"},
      {"ground", "show"}, {"way"},   {"paper"},    {"rehearse"}, {"ground", "seen"},
      {"relocate"},       {"learn"}, {"train"},    {"debrief"},  {"ground", "demo"},
      {"serve"}};
  for (auto words : commands) {
    std::string name = "lodeway";
    for (const auto& word : words) name += " " + word;
    words.emplace_back("--help");
    const auto o = run_lodeway(words);
    EXPECT_EQ(o.status, 0);
    EXPECT_NE(o.out.find("Example"), std::string::npos) << name;
    EXPECT_NE(o.out.find(" " + name), std::string::npos) << name;
    const bool answers = words[0] != "serve" && words[1] != "demo";  // those that answer a question
    EXPECT_EQ(o.out.find("--json") != std::string::npos, answers) << name;
  }
  EXPECT_NE(run_lodeway({"leg", "--help"}).out.find("8 m short"), std::string::npos);
}

// The end is forced into the zone of the start. GeoConvert -u -z 31: 60.3913 5.3221, whose own zone
// is 32, lies at 627970.850 6697245.735 in zone 31.
TEST(Leg, EndIsForcedIntoTheZoneOfTheStart) {
  const auto a = answer({"leg", "--from", "31N 499999 6697245.735", "--to", "60.3913 5.3221",
                         "--date", "2026-01-01"});
  EXPECT_NEAR(a["grid_distance_m"], 127971.850, 0.001);
  EXPECT_NEAR(a["grid_bearing_deg"], 90, 1e-6);
}

// Beyond 84 N the grid is UPS: its north is along the meridian of Greenwich, so that convergence is
// the longitude (NGA.SIG.0012, UPS north: by definition).
TEST(North, PolarGrid) {
  EXPECT_NEAR(answer({"north", "--at", "86 30", "--date", "2026-01-01"})["convergence_deg"], 30,
              1e-9);
  EXPECT_NEAR(answer({"north", "--at", "-86 30", "--date", "2026-01-01"})["convergence_deg"], -30,
              1e-9);
}

// From 2026-05 on the sun of 69.65 N stays up: a day before it has a sunrise alone, and says so.
TEST(Sun, ADayWithoutASunsetSaysSo) {
  bool met = false;
  for (int day = 14; day <= 24; ++day) {
    const auto a = answer({"sun", "--at", "69.65 18.96", "--date", "2026-05-" + std::to_string(day),
                           "--zone", "Europe/Oslo"});
    if (a["rise"].is_null() || !a["set"].is_null()) continue;
    met = true;
    EXPECT_NE(a["state"].get<std::string>().find("no sunset"), std::string::npos);
  }
  EXPECT_TRUE(met);
}

TEST(Refusals, OneLineEach) {
  expect_refused({"north", "--at", "91 0", "--date", "2026-01-01"}, "latitude within 90");
  expect_refused({"north", "--at", "50 0", "--date", "1999-01-01"}, "2025-01-01");
  expect_refused({"north", "--at", "50 0", "--date", "2031-06-01"}, "2029-12-31");
  expect_refused({"north", "--at", "50 0", "--date", "2026-02-30"}, "day of the calendar");
  expect_refused({"leg", "--from", "50 0", "--to", "50 0", "--date", "2026-01-01"}, "same");
  expect_refused({"leg", "--from", "50 0", "--to", "51 0", "--date", "2026-01-01", "--scale", "0"},
                 "scale");
  expect_refused(
      {"leg", "--from", "50 0", "--to", "51 0", "--date", "2026-01-01", "--stride", "-1"},
      "stride");
  expect_refused({"sun", "--at", "50 0", "--date", "2026-01-01", "--zone", "Mars/Base"}, "IANA");
  expect_refused({"leg", "--from", "50 0"}, "--to");
  expect_refused({"leg", "--from", "50 0", "--to", "50 40", "--date", "2026-01-01"}, "to: ");
  expect_refused({"leg", "--from", "85 0", "--to", "85 1", "--date", "2026-01-01"}, "84 N");
  expect_refused(
      {"leg", "--from", "50 0", "--to", "51 0", "--date", "2026-01-01", "--speed", "nan"}, "speed");
  expect_refused(
      {"leg", "--from", "50 0", "--to", "51 0", "--date", "2026-01-01", "--angle", "gon"},
      "--angle");
  expect_refused({"north", "--at", "50 0", "--date", "2026-01-01", "--height", "900000"}, "height");
  expect_refused({"north", "--at", "50 0\nx", "--date", "2026-01-01"}, "place");
  expect_refused({"north", "--at", "", "--date", "2026-01-01"}, "word 3 after lodeway is empty");
  expect_refused({"way", "trip.toml", "--gpx="}, "is empty");
  // what a terminal would obey is not sent to it
  expect_refused({"way", "\x1b[31mred\x07.toml"}, " [31mred .toml");
  for (const char* seed : {"-1", "99999999999999999999999", "1x", "1.5"}) {
    expect_refused({"rehearse", "trip.toml", "--seed", seed}, "expected a whole number from 0");
    expect_refused({"ground", "demo", "out.gpkg", "--seed", seed}, "expected a whole number");
  }
  for (const char* option : {"--scale", "--stride", "--speed"}) {
    for (const char* value : {"1e308", "1e-308", "inf"}) {
      expect_refused(
          {"leg", "--from", "50 0", "--to", "51 0", "--date", "2026-01-01", option, value},
          std::string(option + 2) + ": expected a number from");
    }
  }
}

}  // namespace
}  // namespace lodeway
