#include "lodeway/learn/figures/party_figures.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "lodeway/io/party/marks_file.hpp"
#include "lodeway/io/party/party_file.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/defaults.hpp"

namespace lodeway::learn {
namespace {
using std::chrono::day, std::chrono::month, std::chrono::year, std::chrono::year_month_day;
constexpr year_month_day today{year{2026}, month{11}, day{29}};

Basis basis(mapdata::Visibility v = mapdata::Visibility::clear) {
  Basis b;
  b.today = today;
  b.party.visibility = v;
  return b;
}

Measured pegs(Exercise exercise, double mean_deg, double sd_deg, int n, std::uint64_t seed = 1) {
  Measured m;
  m.date = today;
  m.exercise = exercise;
  m.training = false;
  m.leg_m = 400;
  numeric::Random random(seed);
  for (int i = 0; i < n; ++i) {
    m.across_m.push_back(400 * std::tan((mean_deg + sd_deg * random.normal()) * 0.0174532925));
    m.along_m.push_back(400 * 0.05 * random.normal());
  }
  return m;
}

TEST(Figures, NothingMeasuredLeavesTheTable) {
  const auto f = figures_of({}, basis());
  EXPECT_TRUE(f.all.empty());
  const auto p = learnt_party({}, f, basis());
  EXPECT_LT(p.errors.bearing_sigma_deg, 0);
  EXPECT_FALSE(p.bands);
  EXPECT_EQ(p.stride_m, walking::Party{}.stride_m);
}

// A closed triangle carries what all legs share out and back again.
TEST(Figures, ATriangleAloneLeavesCompassAndStrideAtThePrior) {
  PartyRecord record;
  ASSERT_TRUE(add(record, pegs(Exercise::triangle, 3, 2, 12)));
  const auto f = figures_of(record, basis());
  EXPECT_NE(f.find(Quantity::bearing), nullptr);
  EXPECT_EQ(f.find(Quantity::compass), nullptr);
  EXPECT_EQ(f.find(Quantity::stride), nullptr);
  const auto p = learnt_party({}, f, basis());
  const auto learnt = reckoning::errors_of(p), table = reckoning::errors_of({});
  EXPECT_EQ(learnt.compass_sigma, table.compass_sigma);
  EXPECT_EQ(learnt.stride_sigma, table.stride_sigma);
  EXPECT_NE(learnt.bearing_sigma, table.bearing_sigma);
}

TEST(Figures, OpenCoursesTellTheCompassFromTheHand) {
  PartyRecord record;
  ASSERT_TRUE(add(record, pegs(Exercise::bearing, 2.5, 1, 40)));
  const auto f = figures_of(record, basis());
  const auto* compass = f.find(Quantity::compass);
  const auto* hand = f.find(Quantity::bearing);
  ASSERT_NE(compass, nullptr);
  ASSERT_NE(hand, nullptr);
  EXPECT_NEAR(compass->estimate.value, 2.5, 0.3);  // prior 1 degree, 40 courses of 1 degree
  EXPECT_LT(hand->estimate.value, 0.7);            // 1 degree against the table's 2.7 at 400 m
  // the mean that is not allowed for is an error of the party until it is
  EXPECT_GT(learnt_party({}, f, basis()).errors.compass_sigma_deg, 2);
}

TEST(Figures, AClearDayCarriesHalfItsShiftIntoCloud) {
  PartyRecord record;
  ASSERT_TRUE(add(record, pegs(Exercise::triangle, 0, 8, 40)));
  const double clear = figures_of(record, basis()).find(Quantity::bearing)->estimate.value;
  const auto cloud = basis(mapdata::Visibility::cloud);
  const auto* f = figures_of(record, cloud).find(Quantity::bearing);
  (void)f;
  const auto figures = figures_of(record, cloud);
  const double half = figures.find(Quantity::bearing)->estimate.value;
  EXPECT_GT(half, 1);
  EXPECT_LT(half, clear);
  EXPECT_EQ(figures.find(Quantity::bearing)->estimate.table_share, 1);
  EXPECT_FALSE(not_shown(record, figures, cloud).empty());
}

TEST(Figures, OneOfThePartyIsShrunkToTheGroup) {
  PartyRecord record;
  auto a = pegs(Exercise::triangle, 0, 1, 10, 2), b = pegs(Exercise::triangle, 0, 8, 10, 3);
  a.who = "A";
  b.who = "B";
  ASSERT_TRUE(add(record, a));
  ASSERT_TRUE(add(record, b));
  const auto of = [&](const char* who) {
    auto one = basis();
    one.who = who;
    return figures_of(record, one).find(Quantity::bearing)->estimate.value;
  };
  EXPECT_LT(of("A"), of(""));
  EXPECT_GT(of("B"), of(""));
}

TEST(Figures, TwoRunsOverTheTapeGiveTheStride) {
  // learn: prior sd 0.06, two runs of 0.03: weight of the runs (2/0.03^2) / (1/0.06^2 + 2/0.03^2)
  // = 8/9 of ln(70 / 62.5)
  PartyRecord record;
  Measured m;
  m.date = today;
  m.exercise = Exercise::pacing;
  m.double_paces = {70, 70};
  ASSERT_TRUE(add(record, m));
  const auto f = figures_of(record, basis());
  const double paces = 62.5 * std::exp(8.0 / 9 * std::log(70 / 62.5));
  EXPECT_NEAR(f.find(Quantity::paces)->estimate.value, paces, 1e-9);
  EXPECT_NEAR(learnt_party({}, f, basis()).stride_m, 50 / paces, 1e-9);
}

TEST(Figures, TrainingHalvesAChancesEvidence) {
  PartyRecord record;
  Measured m;
  m.date = today;
  m.exercise = Exercise::forks;
  m.trials = 24;
  m.missed = 2;
  ASSERT_TRUE(add(record, m));
  // Beta(9.8 + 11, 0.2 + 1)
  const auto f = figures_of(record, basis());
  EXPECT_NEAR(f.find(Quantity::branch)->estimate.value, 20.8 / 22, 1e-12);
}

double odds(double p) { return p / (1 - p); }

Measured counted(Exercise exercise, double trials, double missed) {
  Measured m;
  m.date = today;
  m.exercise = exercise;
  m.trials = trials;
  m.missed = missed;
  return m;
}

// Forks as above, 20.8 / 22 against a table of 0.98: odds times (20.8 / 1.2) / 49, in air that was
// not tried the root of that.
TEST(LearntChances, BranchesMoveTheTableOfAllClasses) {
  PartyRecord record;
  ASSERT_TRUE(add(record, counted(Exercise::forks, 24, 2)));
  const sight::Chances table, learnt(learnt_chances(figures_of(record, basis()), basis()));
  const auto ratio = [&](mapdata::Kind kind, mapdata::Visibility visibility) {
    const auto of = [&](const sight::Chances& c) {
      return odds(c.of(sight::ChanceOf::branch, kind, visibility, walking::Skill::practised).value);
    };
    return of(learnt) / of(table);
  };
  const double shift = 20.8 / 1.2 / 49;
  for (const auto kind : {mapdata::Kind::path, mapdata::Kind::wall}) {
    EXPECT_NEAR(ratio(kind, mapdata::Visibility::clear), shift, 1e-9);
    EXPECT_NEAR(ratio(kind, mapdata::Visibility::cloud), std::sqrt(shift), 1e-9);
  }
}

// Desk settings count half: 120 are 60. Six wrong: (1 + 3) / 110; none: 1 / 110. Fewer than the
// table's 0.02 count half the shift.
TEST(LearntChances, GrossErrorsAtADeskAreTheLeast) {
  const auto gross = [](double missed) {
    PartyRecord record;
    EXPECT_TRUE(add(record, counted(Exercise::setting, 120, missed)));
    return odds(sight::Chances(learnt_chances(figures_of(record, basis()), basis()))
                    .of(sight::Setting::gross_error, walking::Skill::practised)
                    .value);
  };
  const double table =
      odds(sight::Chances().of(sight::Setting::gross_error, walking::Skill::practised).value);
  EXPECT_NEAR(gross(6) / table, odds(4.0 / 110) / odds(0.02), 1e-9);
  EXPECT_NEAR(gross(0) / table, std::sqrt(odds(1.0 / 110) / odds(0.02)), 1e-9);
}

TEST(LearntChances, EachClassMovesByItsOwnLinesAndOthersByHalf) {
  PartyRecord record;
  auto m = counted(Exercise::lines, 20, 10);
  m.kind = mapdata::Kind::stream;
  ASSERT_TRUE(add(record, m));
  const auto b = basis();
  const auto figures = figures_of(record, b);
  const sight::Chances table, learnt(learnt_chances(figures, b));
  const auto noticed = [&](const sight::Chances& c, mapdata::Kind kind) {
    return c
        .of(sight::ChanceOf::notice, kind, mapdata::Visibility::clear, walking::Skill::practised)
        .value;
  };
  for (const auto kind : {mapdata::Kind::stream, mapdata::Kind::wall})
    EXPECT_LT(noticed(learnt, kind), noticed(table, kind));
  const auto moved = [&](mapdata::Kind kind) {
    return std::log(odds(noticed(table, kind)) / odds(noticed(learnt, kind)));
  };
  EXPECT_GT(moved(mapdata::Kind::stream), moved(mapdata::Kind::wall));
  // nothing was said of knowing ends
  EXPECT_EQ(learnt
                .of(sight::ChanceOf::know, mapdata::Kind::hut, mapdata::Visibility::clear,
                    walking::Skill::practised)
                .value,
            table
                .of(sight::ChanceOf::know, mapdata::Kind::hut, mapdata::Visibility::clear,
                    walking::Skill::practised)
                .value);
}

TEST(Figures, StatedFiguresOfTheTripStay) {
  PartyRecord record;
  ASSERT_TRUE(add(record, pegs(Exercise::bearing, 0, 5, 20)));
  walking::Party party;
  party.errors.bearing_sigma_deg = 1.25;
  const auto p = learnt_party(party, figures_of(record, basis()), basis());
  EXPECT_EQ(p.errors.bearing_sigma_deg, 1.25);
  EXPECT_GT(p.errors.sighting_sigma_deg, 0);
}

TEST(PartyFile, ReadsBackTheSame) {
  PartyRecord record;
  record.name = "Tuesday \"four\"";
  ASSERT_TRUE(add(record, pegs(Exercise::bearing, 0, 5, 3)));
  Measured m;
  m.date = today;
  m.exercise = Exercise::lines;
  m.kind = mapdata::Kind::stream;
  m.conditions = mapdata::Visibility::cloud;
  m.trials = 10;
  m.missed = 1;
  ASSERT_TRUE(add(record, m));
  WalkedDay walk;
  walk.date = today;
  walk.file = "a.gpx";
  walk.digest = "0123456789abcdef";
  walk.moving_min = 90;
  walk.pieces.push_back({500, 20, 10, 9, 0.07, {8, 7, 8, 9, 7}});
  ASSERT_TRUE(add(record, walk));
  const auto text = io::party_file_text(record);
  const auto again = io::party_of_text(text, "party.toml");
  ASSERT_TRUE(again) << again.error().what;
  EXPECT_EQ(io::party_file_text(*again), text);
  EXPECT_EQ(again->name, record.name);
  EXPECT_EQ(again->measured.size(), 2U);
  EXPECT_EQ(again->walked.front().pieces.front().climb_m, 20);
}

TEST(PartyFile, RefusesWithLineAndReason) {
  const auto refused = [](const std::string& text) {
    const auto r = io::party_of_text(text, "p.toml");
    EXPECT_FALSE(r);
    return r ? std::string() : r.error().what;
  };
  EXPECT_NE(refused("version = 2\n").find("newer Lodeway"), std::string::npos);
  EXPECT_NE(refused("name = \"x\"\n").find("version"), std::string::npos);
  EXPECT_NE(refused("version = 1\n[[measured]]\ndate = 2026-10-03\nexercise = \"forks\"\n"
                    "trials = 10\nmissed = 11\n")
                .find("p.toml:6: measured[1].missed: expected at most the 10 trials, got 11"),
            std::string::npos);
  EXPECT_NE(refused("version = 1\nbearing_sigma = 2\n").find("not known"), std::string::npos);
  EXPECT_NE(refused("version = 1\n[[walked]]\ndate = 2026-10-03\ndigest = \"0123456789abcdef\"\n"
                    "pieces = [[1, 2]]\n")
                .find("10 numbers"),
            std::string::npos);
}

TEST(MarksFile, BlanksAreNotZeroAndATemplateIsNoMarks) {
  io::Marks blank;
  blank.day = "K-1";
  Measured m;
  m.exercise = Exercise::bearing;
  m.course = "B1";
  m.leg_m = 400;
  blank.measured.push_back(m);
  auto text = io::marks_template(blank);
  EXPECT_NE(text.find("across_m = []"), std::string::npos);
  const auto put = [&](const std::string& from, const std::string& to) {
    ASSERT_NE(text.find(from), std::string::npos);
    text.replace(text.find(from), from.size(), to);
  };
  put("date = \"\"", "date = 2026-10-03");
  const auto none = io::marks_of_text(text, "m.toml");
  ASSERT_FALSE(none);
  EXPECT_NE(none.error().what.find("an empty box is not 0"), std::string::npos);
  put("across_m = []", "across_m = [7, -14]");
  const auto marks = io::marks_of_text(text, "m.toml");
  ASSERT_TRUE(marks) << marks.error().what;
  EXPECT_EQ(marks->day, "K-1");
  ASSERT_EQ(marks->measured.size(), 1U);
  EXPECT_EQ(marks->measured[0].across_m, (std::vector<double>{7, -14}));
  EXPECT_EQ(marks->measured[0].course, "B1");
}

}  // namespace
}  // namespace lodeway::learn
