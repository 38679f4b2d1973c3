#include "lodeway/learn/record/record.hpp"

#include <gtest/gtest.h>

#include "lodeway/learn/record/evidence.hpp"

namespace lodeway::learn {
namespace {
using std::chrono::day, std::chrono::month, std::chrono::year, std::chrono::year_month_day;
constexpr year_month_day today{year{2026}, month{11}, day{29}};

Measured bearings(std::vector<double> across, std::vector<double> along = {}) {
  Measured m;
  m.date = today;
  m.exercise = Exercise::bearing;
  m.leg_m = 400;
  m.across_m = std::move(across);
  m.along_m = std::move(along);
  return m;
}

TEST(Record, ElevenMissesInTenAreRefused) {
  Measured m;
  m.date = today;
  m.exercise = Exercise::forks;
  m.trials = 10;
  m.missed = 11;
  const auto good = check(m);
  ASSERT_FALSE(good);
  EXPECT_NE(good.error().what.find("missed: expected at most the 10 trials, got 11"),
            std::string::npos);
}

TEST(Record, NineHundredMetresOffInFourHundredAreRefused) {
  const auto good = check(bearings({12, -900}));
  ASSERT_FALSE(good);
  EXPECT_NE(good.error().what.find("got -900"), std::string::npos);
  EXPECT_TRUE(check(bearings({12, -60})));
}

TEST(Record, AnEmptyBoxIsNotZero) {
  EXPECT_FALSE(check(bearings({})));
  Measured m;
  m.date = today;
  m.exercise = Exercise::forks;
  EXPECT_FALSE(check(m));
}

TEST(Record, SinglePacesAreAskedAbout) {
  Measured m;
  m.date = today;
  m.exercise = Exercise::pacing;
  m.double_paces = {126, 124};
  EXPECT_TRUE(check(m));
  ASSERT_EQ(odd(m).size(), 1U);
  EXPECT_NE(odd(m).front().find("single paces"), std::string::npos);
  m.double_paces = {63, 62};
  EXPECT_TRUE(odd(m).empty());
  m.double_paces = {600};  // 8 cm
  EXPECT_FALSE(check(m));
}

TEST(Record, AllBearingsToOneSideAskForTheDeclination) {
  ASSERT_EQ(odd(bearings({30, 28, 35, 31, 29, 33})).size(), 1U);
  EXPECT_TRUE(odd(bearings({30, -28, 15, -31, 9, 13})).empty());
}

TEST(Record, TheSameMarksAreNotTakenTwice) {
  PartyRecord record;
  EXPECT_TRUE(add(record, bearings({1, 2})));
  EXPECT_FALSE(add(record, bearings({1, 2})));
  EXPECT_TRUE(add(record, bearings({1, 3})));
  EXPECT_EQ(record.measured.size(), 2U);
}

TEST(Record, TrainingCountsHalfAndAYearHalvesIt) {
  EXPECT_DOUBLE_EQ(weight_of(today, true, today), 0.5);
  EXPECT_DOUBLE_EQ(weight_of(today, false, today), 1);
  EXPECT_NEAR(weight_of({year{2025}, month{11}, day{29}}, false, today), 0.5, 1e-3);
  EXPECT_DOUBLE_EQ(weight_of({year{2027}, month{1}, day{1}}, false, today), 1);
  EXPECT_DOUBLE_EQ(capped(120), 0.5);
  EXPECT_DOUBLE_EQ(capped(30), 1);
}

}  // namespace
}  // namespace lodeway::learn
