/// The one rule of choice, each clause by a case that can be judged by eye.
#include "lodeway/route/choose/rule.hpp"

#include <algorithm>
#include <random>
#include <vector>

#include <gtest/gtest.h>

namespace lodeway::route {
namespace {

const auto far_apart = [](std::size_t, std::size_t) { return 1.0; };

TEST(Rule, WithinTheLimitsQuickMiddleAndSure) {
  // 60, 70, 90 min; kept by e^-0.3, e^-0.12, e^-0.05. The second lies far below the chord.
  const std::vector<Candidate> ways{{60, 0.30}, {70, 0.12}, {90, 0.05}};
  const auto picked = pick_ways(ways, far_apart);
  EXPECT_EQ(picked.quick, 0U);
  EXPECT_EQ(picked.middle, 1U);
  EXPECT_EQ(picked.sure, 2U);
}

TEST(Rule, TheMiddleIsTheKneeNotTheMean) {
  // On the chord from (60, .30) to (100, .10) there is nothing to gain at 80 min with .20.
  const std::vector<Candidate> ways{{60, 0.30}, {80, 0.20}, {66, 0.14}, {100, 0.10}};
  EXPECT_EQ(pick_ways(ways, far_apart).middle, 2U);
  const std::vector<Candidate> chord{{60, 0.30}, {80, 0.20}, {100, 0.10}};
  const auto none = pick_ways(chord, far_apart);
  EXPECT_FALSE(none.middle);
  EXPECT_EQ(none.why_no_middle, NotNamed::none_between);
}

TEST(Rule, ABrokenLimitIsNoChoiceWhileAnotherWayKeepsAll) {
  const std::vector<Candidate> ways{{.expected_min = 60, .loss = 0.1, .keep_off = 0.06},
                                    {.expected_min = 65, .loss = 0.1, .short_of = 0.02},
                                    {.expected_min = 66, .loss = 0.1, .late_min = 1},
                                    {.expected_min = 200, .loss = 0.5, .keep_off = 0.05}};
  const auto picked = pick_ways(ways, far_apart);
  EXPECT_EQ(picked.quick, 3U);
  EXPECT_FALSE(picked.outside());
}

TEST(Rule, OutsideFewestOnGroundToKeepOffRules) {
  const std::vector<Candidate> ways{
      {.expected_min = 60, .loss = 0.1, .keep_off = 0.30},
      {.expected_min = 300, .loss = 2.0, .keep_off = 0.12, .short_of = 0.9}};
  const auto picked = pick_ways(ways, far_apart);
  EXPECT_TRUE(picked.outside());
  EXPECT_EQ(picked.quick, 1U);
  EXPECT_FALSE(picked.middle || picked.sure);
}

TEST(Rule, OutsideThenLeastShortThenTime) {
  const std::vector<Candidate> ways{
      {.expected_min = 60, .keep_off = 0.02, .short_of = 0.40},
      {.expected_min = 95, .keep_off = 0.0151, .short_of = 0.10},  // as few as the first
      {.expected_min = 90, .keep_off = 0.02, .short_of = 0.101}};  // as short as the second
  EXPECT_EQ(pick_ways(ways, far_apart).quick, 2U);
}

TEST(Rule, SureIsTheQuickestOfThoseAsSure) {
  const std::vector<Candidate> ways{{60, 0.30}, {120, 0.051}, {80, 0.06}, {150, 0.05}};
  EXPECT_EQ(pick_ways(ways, far_apart).sure, 2U);
}

TEST(Rule, NothingSurerAndTheSameOnTheMapAreToldApart) {
  const std::vector<Candidate> as_sure{{60, 0.10}, {80, 0.09}};
  EXPECT_EQ(pick_ways(as_sure, far_apart).why_no_sure, NotNamed::no_surer);
  const std::vector<Candidate> surer{{60, 0.30}, {80, 0.05}};
  const auto same = pick_ways(surer, [](std::size_t, std::size_t) { return 0.19; });
  EXPECT_FALSE(same.sure);
  EXPECT_EQ(same.why_no_sure, NotNamed::same_on_map);
  EXPECT_TRUE(pick_ways(surer, [](std::size_t, std::size_t) { return 0.20; }).sure);
}

TEST(Rule, TheMiddleMustBeApartFromBoth) {
  const std::vector<Candidate> ways{{60, 0.30}, {66, 0.12}, {70, 0.11}, {90, 0.05}};
  const auto apart = [](std::size_t a, std::size_t b) {
    return std::min(a, b) == 0 && std::max(a, b) == 1 ? 0.1 : 1.0;  // the knee lies on quick
  };
  EXPECT_EQ(pick_ways(ways, apart).middle, 2U);
  const auto on_sure = [](std::size_t a, std::size_t b) { return a + b == 3 ? 1.0 : 0.1; };
  EXPECT_EQ(pick_ways(ways, on_sure).why_no_middle, NotNamed::between_same);
}

TEST(Rule, LawsOnRandomFronts) {
  std::mt19937 random(20261129);
  std::uniform_real_distribution<double> minutes(30, 300), loss(0, 2), share(0, 0.2);
  for (int n = 0; n < 2000; ++n) {
    std::vector<Candidate> ways(1 + random() % 12);
    for (auto& w : ways) w = {minutes(random), loss(random), share(random), share(random) - 0.1, 0};
    const auto picked = pick_ways(ways, far_apart);
    const bool any = std::ranges::any_of(ways, [](const auto& w) { return keeps_limits(w, {}); });
    ASSERT_EQ(picked.outside(), !any);
    for (const auto& w : ways) {
      if (!any) {  // nobody is sent over ground that fewer would set foot on
        ASSERT_GE(w.keep_off + 0.005, ways[picked.quick].keep_off);
      } else if (keeps_limits(w, {})) {
        ASSERT_GE(w.expected_min, ways[picked.quick].expected_min);
        if (picked.sure) {
          ASSERT_GE(w.loss + 0.02, ways[*picked.sure].loss);
        }
      }
    }
    if (picked.sure) {
      ASSERT_LT(ways[*picked.sure].loss, ways[picked.quick].loss);
    }
    if (picked.middle) {
      ASSERT_LT(ways[*picked.middle].loss, ways[picked.quick].loss);
      ASSERT_LT(ways[*picked.middle].expected_min, ways[*picked.sure].expected_min);
    }
  }
}

// Of 100 parties 6.6 are half a party and more over 6.0, 6.2 are not: of the two that are alike the
// quicker. Where only the third is left to be beside 6.6 it is fewer, however slow.
TEST(Rule, HarmWithinHalfAPartyIsAlike) {
  const std::vector<Candidate> ways{{.expected_min = 40, .keep_off = 0.066},
                                    {.expected_min = 50, .keep_off = 0.062},
                                    {.expected_min = 300, .keep_off = 0.060}};
  EXPECT_EQ(pick_ways(ways, far_apart).quick, 1U);
  const std::vector<Candidate> apart{ways[0], ways[2]};
  EXPECT_EQ(pick_ways(apart, far_apart).quick, 1U);
}

// Novices in cloud: one way is kept by 2 in 100 and nobody who keeps it comes near ground to keep
// off; of the other, kept by 29, 2 in 100 000 tread some. That is no reason to send them the first.
TEST(Rule, AHairOfHarmDoesNotOutweighTheWay) {
  const std::vector<Candidate> ways{
      {.expected_min = 191, .loss = 3.9, .keep_off = 0, .short_of = 1.69},
      {.expected_min = 164, .loss = 1.2, .keep_off = 0.00002, .short_of = 0.66}};
  EXPECT_EQ(pick_ways(ways, far_apart).quick, 1U);
}

// Below the chord from (60, .30) to (100, .07): (66, .14) by 0.55, (80, .15) by 0.15, (90, .11) by
// 0.08. The first is the knee; where it runs like the quick way, the next best is.
TEST(Rule, TheKneeIsFarthestBelowTheChord) {
  const std::vector<Candidate> ways{{60, 0.30}, {90, 0.11}, {66, 0.14}, {80, 0.15}, {100, 0.07}};
  ChoiceRules rules;
  rules.same_loss = 0;
  EXPECT_EQ(pick_ways(ways, far_apart, rules).middle, 2U);
  const auto like_quick = [](std::size_t i, std::size_t j) { return i == 2 || j == 2 ? 0.0 : 1.0; };
  EXPECT_NE(pick_ways(ways, like_quick, rules).middle, 2U);
}

}  // namespace
}  // namespace lodeway::route
