// The example day: made again from its seed, its marks read, each figure held against the sum
// worked by hand in docs/training-day.md (the formulas of docs/method/learning.md, not the
// program's code).
#include <cmath>
#include <fstream>
#include <map>
#include <regex>
#include <set>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/support.hpp"

namespace lodeway {
namespace {
using nlohmann::json;
using support::run_lodeway;
using support::TemporaryFolder;

std::string marks_file() {
  return support::tests_folder() + "/../examples/training/twin-house-marks.toml";
}
std::set<std::string> all(const std::string& text, const std::string& pattern) {
  std::set<std::string> out;
  const std::regex line(pattern);
  for (auto at = std::sregex_iterator(text.begin(), text.end(), line); at != std::sregex_iterator();
       ++at)
    out.insert((*at)[1]);
  return out;
}

/// Share of Beta(a, b) below x, by 200 000 strips.
double beta_below(double a, double b, double x) {
  constexpr int strips = 200'000;
  double below = 0, whole = 0;
  for (int i = 0; i < strips; ++i) {
    const double t = (i + 0.5) / strips;
    const double d = std::exp((a - 1) * std::log(t) + (b - 1) * std::log1p(-t));
    whole += d;
    if (t < x) below += d;
  }
  return below / whole;
}

class ExampleDay : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder_ = new TemporaryFolder;
    ground_ = *folder_ / "skarrow.gpkg";
    ASSERT_EQ(support::skarrow_ground(ground_).status, 0);
    const auto o = run_lodeway(
        {"learn", *folder_ / "party.toml", "--marks", marks_file(), "--ground", ground_, "--json"});
    ASSERT_EQ(o.status, 0) << o.err;
    answer_ = json::parse(o.out);
  }
  static void TearDownTestSuite() { delete folder_; }
  static const json& figure(const std::string& name) {
    for (const auto& f : answer_["figures"]) {
      if (f["name"] == name) return f;
    }
    ADD_FAILURE() << name;
    return answer_;
  }
  static void expect(const std::string& name, double value, double low, double high, double by) {
    SCOPED_TRACE(name);
    const auto& f = figure(name);
    EXPECT_NEAR(f["value"].get<double>(), value, by);
    EXPECT_NEAR(f["low"].get<double>(), low, by);
    EXPECT_NEAR(f["high"].get<double>(), high, by);
  }
  static void expect_beta(const std::string& name, double a, double b) {
    SCOPED_TRACE(name);
    const auto& f = figure(name);
    EXPECT_NEAR(f["value"].get<double>(), a / (a + b), 1e-9);
    EXPECT_NEAR(beta_below(a, b, f["low"].get<double>()), 0.05, 1e-4);
    EXPECT_NEAR(beta_below(a, b, f["high"].get<double>()), 0.95, 1e-4);
  }

  static TemporaryFolder* folder_;
  static std::string ground_;
  static json answer_;
};
TemporaryFolder* ExampleDay::folder_ = nullptr;
std::string ExampleDay::ground_;
json ExampleDay::answer_;

// The same place and seed make this day, with the codes that stand in the marks, and no course of
// it is left out of them.
TEST_F(ExampleDay, IsMadeAgainFromItsSeed) {
  const TemporaryFolder f;
  const auto o = run_lodeway({"train", ground_, "--from", "Twin House", "--seed", "7", "--date",
                              "2026-10-03", "--out", f / "day"});
  ASSERT_EQ(o.status, 0) << o.err;
  const auto made = support::read_text(f / "day/marks.toml"),
             filled = support::read_text(marks_file());
  for (const char* key : {"day", "course"}) {
    const auto pattern = std::string(key) + " = \"([^\"]+)\"";
    EXPECT_EQ(all(made, pattern), all(filled, pattern)) << key;
  }
  EXPECT_EQ(all(made, "leg_m = ([0-9]+)"), all(filled, "leg_m = ([0-9]+)"));
}

TEST_F(ExampleDay, TakesWhatIsFilledInAndNothingElse) {
  EXPECT_EQ(answer_["marks_taken"], 11);
  EXPECT_EQ(answer_["boxes_left_empty"], 1);
  EXPECT_TRUE(answer_["questions"].empty()) << answer_["questions"].dump();
  std::map<std::string, double> trials;
  for (const auto& f : answer_["figures"]) trials[f["name"]] = f["trials"];
  const std::map<std::string, double> counted{
      {"bearing", 12}, {"distance", 12}, {"compass", 12},     {"stride", 12}, {"paces.rough", 6},
      {"gross", 120},  {"know", 30},     {"notice", 12},      {"sweep", 25},  {"height", 6},
      {"fall", 6},     {"area", 6},      {"sight_bearing", 6}};
  EXPECT_EQ(trials, counted);
  EXPECT_FALSE(std::ifstream(*folder_ / "party.toml").good());  // nobody said yes
}

// Training counts half: 30 ends, 8 not known, are 15 and 4 beside the table's 6.
TEST_F(ExampleDay, ChancesAreTheBetaOfTheTableAndHalfTheTrials) {
  expect_beta("know", 0.9 * 6 + 0.5 * 22, 0.1 * 6 + 0.5 * 8);
  expect_beta("notice", 0.9 * 6 + 0.5 * 10, 0.1 * 6 + 0.5 * 2);
  expect_beta("area", 0.9 * 6 + 0.5 * 5, 0.1 * 6 + 0.5 * 1);
  // what goes wrong: 0.02 worth 50, 3 of 120
  expect_beta("gross", 0.02 * 50 + 0.5 * 3, 0.98 * 50 + 0.5 * 117);
}

// Quantiles of chi squared: 10 degrees 3.940 and 18.307, 7 degrees 2.167 and 14.067 (Pearson &
// Hartley 1966, table 8).
TEST_F(ExampleDay, SpreadsAreTheTableWorthFourAndHalfTheSquares) {
  // squares 144 + 400 + 1225 + 64 + 225 + 676 = 2734; 4 · 20² + 1367 = 2967; by 4 + 3
  expect("height", std::sqrt(2967 / 7.0), std::sqrt(2967 / 14.067), std::sqrt(2967 / 2.167), 0.01);
  // 100 + 625 + 324 + 25 + 900 + 144 = 2118
  expect("fall", std::sqrt(2659 / 7.0), std::sqrt(2659 / 14.067), std::sqrt(2659 / 2.167), 0.01);
  // 16 + 36 + 9 + 64 + 4 + 25 = 154; 4 · 5² + 77 = 177
  expect("sight_bearing", std::sqrt(177 / 7.0), std::sqrt(177 / 14.067), std::sqrt(177 / 2.167),
         0.003);
}

// The pegs, by the equations of the method page: spread and shared part each given the other. The
// sums over the twelve pegs are added up by hand: Σ w/t², Σ w x/t², Σ w x²/t².
TEST_F(ExampleDay, ThePegsPartWhatAllLegsShareFromWhatEachLegAdds) {
  struct Sums {
    double weight, first, second, prior_sd;
    const char *spread, *shared;
  };
  for (const auto& s : {Sums{0.82177, 1.10453, 5.31161, 1, "bearing", "compass"},
                        Sums{3296.51, 95.3439, 12.2167, 0.03, "distance", "stride"}}) {
    double f2 = 1, mean = 0, sd2 = s.prior_sd * s.prior_sd;
    for (int round = 0; round < 40; ++round) {
      f2 = (4 + s.second - 2 * mean * s.first + (mean * mean + sd2) * s.weight) / (4 + 6);
      sd2 = 1 / (1 / (s.prior_sd * s.prior_sd) + s.weight / f2);
      mean = sd2 * s.first / f2;
    }
    expect(s.spread, std::sqrt(f2), std::sqrt(10 * f2 / 18.307), std::sqrt(10 * f2 / 3.940), 2e-4);
    const double off = 1.64485 * std::sqrt(sd2);
    expect(s.shared, mean, mean - off, mean + off, 2e-4 * s.prior_sd);
  }
  // as they stand on the page
  EXPECT_NEAR(figure("bearing")["value"].get<double>(), 0.929, 5e-4);
  EXPECT_NEAR(figure("compass")["value"].get<double>(), 0.66, 5e-3);
  EXPECT_NEAR(figure("distance")["value"].get<double>(), 1.214, 5e-4);
  EXPECT_NEAR(figure("stride")["value"].get<double>(), 0.0193, 5e-5);
}

// A tape is a tape: runs count whole. ln 62.5 = 4.1352 known to 0.06, the six runs' mean 4.2624 to
// 0.03 / √6.
TEST_F(ExampleDay, PacesAreTheMeanOfTheTableAndTheRuns) {
  const double before = 1 / 0.0036, seen = 6 / 0.0009;
  const double mean = (before * 4.13517 + seen * 4.26242) / (before + seen);
  const double off = 1.64485 / std::sqrt(before + seen);
  expect("paces.rough", std::exp(mean), std::exp(mean - off), std::exp(mean + off), 0.01);
}

// Gamma of 2 finds in 0.1 /m, and half of 25 in 1.3 /m.
TEST_F(ExampleDay, TheStripThatASearchSweeps) {
  EXPECT_NEAR(figure("sweep")["value"].get<double>(), (2 + 12.5) / (0.1 + 0.65), 1e-9);
}

// What the day could not show is said: keeping a path, and errors on a hill.
TEST_F(ExampleDay, SaysWhatItCouldNotShow) {
  const auto said = answer_["not_shown"].dump();
  EXPECT_NE(said.find("Keeping a path was not measured"), std::string::npos) << said;
  EXPECT_NE(said.find("counted at a desk"), std::string::npos) << said;
  EXPECT_EQ(said.find("No open bearing course"), std::string::npos) << said;
}

}  // namespace
}  // namespace lodeway
