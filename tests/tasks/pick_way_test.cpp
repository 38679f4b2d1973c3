// Which of the named ways is printed: never one that sends more onto ground to keep off than
// another does when it is over the limit, by the figures that stand beside them.
#include "lodeway/tasks/pick_way.hpp"

#include <gtest/gtest.h>

namespace lodeway::tasks {
namespace {

using walking::Choice;

std::vector<NamedHarm> three(double quick, double middle, double sure) {
  return {{Choice::quick, quick, "quick"},
          {Choice::middle, middle, "middle"},
          {Choice::sure, sure, "sure"}};
}

PickedWay pick(const std::vector<NamedHarm>& ways, Choice asked,
               units::Language language = units::Language::english) {
  return pick_way(ways, asked, 0.05, language);
}

TEST(PickWay, AsAskedWithinTheLimit) {
  for (const auto asked : {Choice::quick, Choice::middle, Choice::sure}) {
    const auto picked = pick(three(0.05, 0.04, 0.01), asked);
    EXPECT_EQ(picked.index, static_cast<std::size_t>(asked));
    EXPECT_TRUE(picked.why.empty()) << picked.why;
  }
  // What there is not: the next surer one, else the last.
  EXPECT_EQ(pick({{Choice::quick, 0, "quick"}, {Choice::sure, 0, "sure"}}, Choice::middle).index,
            1U);
  EXPECT_EQ(pick({{Choice::quick, 0, "quick"}}, Choice::sure).index, 0U);
}

TEST(PickWay, OverTheLimitTheNextSurerOneWithinItIsPickedAndItIsSaidWhy) {
  const auto picked = pick(three(0.071, 0.03, 0.001), Choice::quick);
  EXPECT_EQ(picked.index, 1U);
  EXPECT_EQ(picked.why,
            "Picked is the middle way, not the quick one. On the quick one 8 in 100 stray onto "
            "ground to keep off, over your limit of 5; on the middle one 3.");
  // Surer ones before less sure ones, though these send fewer.
  EXPECT_EQ(pick(three(0.0, 0.06, 0.05), Choice::middle).index, 2U);
  EXPECT_EQ(pick(three(0.0, 0.06, 0.07), Choice::sure).index, 0U);
  const auto german = pick(three(0.0, 0.06, 0.07), Choice::sure, units::Language::german).why;
  EXPECT_NE(german.find("Gewählt ist „quick“, nicht „sure“"), std::string::npos) << german;
}

TEST(PickWay, OneThatNothingElsePutsOutsideTheLimitsRather) {
  auto ways = three(0.06, 0.03, 0.05);
  ways[1].outside_else = true;  // say, two hours after last light
  EXPECT_EQ(pick(ways, Choice::quick).index, 2U);
  ways[2].outside_else = true;
  EXPECT_EQ(pick(ways, Choice::quick).index, 1U);
  // As asked where not too many stray: the leader's to decide.
  ways[0].keep_off = 0.05;
  ways[0].outside_else = true;
  ways[2].outside_else = false;
  EXPECT_EQ(pick(ways, Choice::quick).index, 0U);
}

TEST(PickWay, WhereNoneIsWithinItTheOneThatSendsFewest) {
  EXPECT_EQ(pick(three(0.30, 0.20, 0.10), Choice::quick).index, 2U);
  EXPECT_EQ(pick(three(0.10, 0.20, 0.30), Choice::sure).index, 0U);
  // Printed alike they are alike: 10.1 and 10.9 in 100 are both 11.
  EXPECT_EQ(pick(three(0.109, 0.3, 0.101), Choice::quick).index, 0U);
}

TEST(PickWay, ItIsToldAfterTheDangersAndOnTheCard) {
  trip::Plan plan;
  plan.warnings = {{trip::Severity::danger, "cliff", 0, trip::Reach::card},
                   {trip::Severity::caution, "late", -1, trip::Reach::screen}};
  const auto told = told_why(plan, "why");
  ASSERT_EQ(told.warnings.size(), 3U);
  EXPECT_EQ(told.warnings[1].text, "why");
  EXPECT_EQ(told.warnings[1].reach, trip::Reach::card);
  EXPECT_EQ(told_why(plan, "").warnings.size(), 2U);
}

}  // namespace
}  // namespace lodeway::tasks
