/// The command as a user meets it: its JSON against the formulas, its refusals as one line and
/// status 2.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

#include "support/support.hpp"

namespace reckon_command_test {

struct Ran {
  int status = 0;
  std::string text;
};

Ran run(const std::string& arguments) {
  std::vector<std::string> words{"reckon"};
  std::istringstream in(arguments);
  for (std::string word; in >> word;) words.push_back(word);
  const auto outcome = lodeway::support::run_lodeway(words);
  return {outcome.status, outcome.out + outcome.err};
}

double field(const std::string& json, const std::string& name) {
  const auto at = json.find('"' + name + "\":");
  if (at == std::string::npos) return std::nan("");
  return std::strtod(json.c_str() + at + name.size() + 3, nullptr);
}

const std::string sigmas =
    " --bearing-sigma 2 --sighting-sigma 3 --sighting-every 100 --distance-sigma 0.05 --json";

// By hand: cross^2 = (800 * 2 pi/180)^2 + 800 * 100 * (3 pi/180)^2 + (800 pi/180)^2, the last shared
// by all legs (the table's compass); along^2 = (800 * 0.05)^2 + (800 * 0.03)^2, likewise (stride).
TEST(ReckonCommand, PointIsTheFormula) {
  const Ran ran = run("--length 800 --target point --seen-from 40" + sigmas);
  ASSERT_EQ(ran.status, 0) << ran.text;
  const double degree = std::numbers::pi / 180;
  const double cross =
      std::sqrt(std::pow(800 * 2 * degree, 2) + 800 * 100 * std::pow(3 * degree, 2) +
                std::pow(800 * degree, 2));
  EXPECT_NEAR(field(ran.text, "cross_sigma_m"), cross, 1e-9);
  EXPECT_NEAR(field(ran.text, "along_sigma_m"), std::hypot(40, 24), 1e-12);
  EXPECT_NEAR(field(ran.text, "pass_within_probability"), std::erf(40 / cross / std::sqrt(2)),
              1e-12);
  EXPECT_LE(field(ran.text, "certainty"), field(ran.text, "pass_within_probability"));
}

TEST(ReckonCommand, LineIsTheFormula) {
  const Ran ran = run("--length 800 --target line --crossing-angle 60" + sigmas);
  ASSERT_EQ(ran.status, 0) << ran.text;
  const double line = field(ran.text, "line_sigma_m"), off = field(ran.text, "aim_off_m");
  EXPECT_NEAR(line, field(ran.text, "cross_sigma_m") / std::sin(std::numbers::pi / 3), 1e-9);
  EXPECT_GT(off, line);
  const double wrong = field(ran.text, "wrong_side_probability");
  // The closed form takes rays as parallel: the angle at the aim is some degrees wider.
  EXPECT_NEAR(wrong, 0.5 * std::erfc(off / line / std::sqrt(2)), 0.02);
  EXPECT_NEAR(field(ran.text, "certainty") + wrong + field(ran.text, "never_met_probability"), 1,
              1e-9);
  EXPECT_NE(ran.text.find("\"aim_side\": \"near\""), std::string::npos);
  const Ran words = run("--length 800 --target line --crossing-angle 60");
  for (const char* part :
       {"to the side where it comes nearer to you", "never meet it", "Go on for"})
    EXPECT_NE(words.text.find(part), std::string::npos) << words.text;
  EXPECT_NE(run("--length 800 --target line --crossing-angle 90").text.find("to either side"),
            std::string::npos);
}

TEST(ReckonCommand, ALineBesideTheLegIsSaidToCatchNobody) {
  for (const char* angle : {"3", "6", "9"}) {
    const auto asked = std::string("--length 800 --target line --crossing-angle ") + angle;
    const Ran words = run(asked);
    EXPECT_EQ(words.status, 0);
    EXPECT_NE(words.text.find(std::string(angle) + "° to the leg is no catching feature"),
              std::string::npos)
        << words.text;
    EXPECT_EQ(words.text.find("Aim off by"), std::string::npos) << words.text;
    const Ran json = run(asked + " --json");
    EXPECT_NE(json.text.find("\"catches\": false"), std::string::npos) << json.text;
    EXPECT_TRUE(std::isnan(field(json.text, "aim_off_m"))) << json.text;
  }
}

TEST(ReckonCommand, TextAnswersTheLeadersQuestion) {
  const Ran ran = run("--length 800 --visibility cloud --target point --seen-from 40");
  EXPECT_EQ(ran.status, 0);
  EXPECT_NE(ran.text.find("How long may a leg to such a point be?"), std::string::npos);
}

TEST(ReckonCommand, RefusesInOneLine) {
  for (const char* bad :
       {"--length 0 --target point --seen-from 40", "--length -1 --target point --seen-from 40",
        "--length nan --target point --seen-from 40", "--length x --target point --seen-from 40",
        "--length 800 --target point", "--length 800 --target point --seen-from 0",
        "--length 800 --target line --crossing-angle 0",
        "--length 800 --target line --crossing-angle 90.1", "--length 800 --target line",
        "--length 800 --target hill", "--length 800",
        "--length 800 --target point --seen-from 40 --bearing-sigma 0",
        "--length 800 --target point --seen-from 40 --sighting-sigma -3",
        "--length 800 --target point --seen-from 40 --sighting-every 0",
        "--length 800 --target point --seen-from 40 --distance-sigma inf",
        "--length 800 --target point --seen-from 40 --skill wizard",
        "--length 800 --target point --seen-from 40 --instrument stick",
        "--length 800 --target point --seen-from 40 --visibility fog"}) {
    const Ran ran = run(bad);
    EXPECT_EQ(ran.status, 2) << bad;
    EXPECT_EQ(std::count(ran.text.begin(), ran.text.end(), '\n'), 1) << bad << "\n" << ran.text;
  }
}
}  // namespace reckon_command_test
