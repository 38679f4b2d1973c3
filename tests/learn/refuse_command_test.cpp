// `lodeway learn --refuse`: single figures stay at the table, and count again when asked to.
#include <algorithm>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/support.hpp"

namespace lodeway {
namespace {
using nlohmann::json;
using support::run_lodeway;
using support::TemporaryFolder;

const char* marks() {
  return "version = 1\ndate = 2026-10-03\n[[marks]]\nexercise = \"lines\"\ntrials = 20\nmissed = "
         "10\n[[marks]]\nexercise = \"forks\"\ntrials = 20\nmissed = 5\n";
}
json figure_of(const json& answer, const std::string& name) {
  for (const auto& f : answer["figures"]) {
    if (f["name"] == name) return f;
  }
  ADD_FAILURE() << name << " is not in " << answer["figures"].dump();
  return {};
}

TEST(LearnRefuse, OneFigureStaysAtTheTableAndComesBack) {
  const TemporaryFolder f;
  const auto party = f / "party.toml";
  const auto m = f.write("marks.toml", marks());
  const auto o =
      run_lodeway({"learn", party, "--marks", m, "--refuse", "notice", "--keep", "--json"});
  ASSERT_EQ(o.status, 0) << o.err;
  const auto j = json::parse(o.out);
  EXPECT_TRUE(figure_of(j, "notice")["refused"]);
  EXPECT_FALSE(figure_of(j, "branch")["refused"]);
  EXPECT_EQ(figure_of(j, "notice")["trials"], 20);  // counted all the same
  EXPECT_NE(support::read_text(party).find("refused = [\"notice\"]"), std::string::npos);
  // Of the file alone: taken up again, and nothing is written without a yes.
  const auto shown = run_lodeway({"learn", party, "--use", "notice"});
  EXPECT_EQ(shown.status, 0) << shown.err;
  EXPECT_NE(support::read_text(party).find("refused"), std::string::npos);
  ASSERT_EQ(run_lodeway({"learn", party, "--use", "notice", "--keep"}).status, 0);
  EXPECT_EQ(support::read_text(party).find("refused"), std::string::npos);
  // And what was there is still there.
  const auto again = json::parse(run_lodeway({"learn", party, "--refuse", "branch", "--json"}).out);
  EXPECT_EQ(figure_of(again, "notice")["value"], figure_of(j, "notice")["value"]);
}

TEST(LearnRefuse, TheTextNamesTheFiguresAndSaysWhichIsRefused) {
  const TemporaryFolder f;
  const auto m = f.write("marks.toml", marks());
  const auto party = f / "party.toml";
  const auto o = run_lodeway({"learn", party, "--marks", m, "--refuse", "branch"});
  EXPECT_NE(o.out.find("--refuse NAME: notice, branch"), std::string::npos) << o.out;
  const auto at = o.out.find("right branch at a fork");
  ASSERT_NE(at, std::string::npos);
  const auto line = o.out.substr(at, o.out.find('\n', at) - at);
  EXPECT_NE(line.find("refused: the table stands"), std::string::npos) << line;
  EXPECT_EQ(o.out.find("refused: the table stands"), o.out.rfind("refused: the table stands"));
  const auto german =
      run_lodeway({"learn", party, "--marks", m, "--refuse", "branch", "--language", "de"});
  EXPECT_NE(german.out.find("abgelehnt: die Tabelle gilt"), std::string::npos) << german.out;
}

TEST(LearnRefuse, WhatIsNoFigureIsToldInOneLineAndNothingIsWritten) {
  const TemporaryFolder f;
  const auto m = f.write("marks.toml", marks());
  for (const char* name : {"compass", "unicorn", "know.stream"}) {
    const auto o =
        run_lodeway({"learn", f / "party.toml", "--marks", m, "--refuse", name, "--keep"});
    EXPECT_EQ(o.status, 2) << o.out;
    EXPECT_EQ(std::ranges::count(o.err, '\n'), 1) << o.err;
    EXPECT_NE(o.err.find(std::string(name) + ": expected a figure that was measured: notice, "
                                             "branch"),
              std::string::npos)
        << o.err;
    EXPECT_FALSE(std::ifstream(f / "party.toml").good());
  }
  const auto none = run_lodeway({"learn", f / "party.toml", "--refuse", "notice"});
  EXPECT_EQ(none.status, 2);
  EXPECT_NE(none.err.find("there is none"), std::string::npos) << none.err;
}

/// What the way of a trip is worth with this party file.
double certainty_with(const TemporaryFolder& f, const std::string& trip, const std::string& party) {
  f.write("party.toml", party);
  const auto o = run_lodeway({"way", trip, "--json"});
  EXPECT_TRUE(o.status == 0 || o.status == 3) << o.err;
  return json::parse(o.out)["certainty"].get<double>();
}

// Ends that are known badly lower a trip's certainty; refused they do not.
TEST(LearnRefuse, ARefusedFigureDoesNotMoveATrip) {
  const TemporaryFolder f;
  const auto ground = f / "skarrow.gpkg";
  ASSERT_EQ(support::skarrow_ground(ground).status, 0);
  auto text = support::read_text(support::tests_folder() + "/../examples/skarrow-round.toml");
  text.insert(text.find("[party]\n") + 8, "file = \"party.toml\"\n");
  const auto trip = f.write("trip.toml", text);
  const std::string none = "version = 1\nname = \"four\"\n";
  const std::string counts =
      "[[measured]]\ndate = 2026-11-01\nexercise = \"features\"\ntraining = false\ntrials = "
      "40\nmissed = 20\n";
  const double table = certainty_with(f, trip, none);
  EXPECT_LT(certainty_with(f, trip, none + counts), table - 0.02);
  EXPECT_EQ(certainty_with(f, trip, none + "refused = [\"know\"]\n" + counts), table);
}

}  // namespace
}  // namespace lodeway
