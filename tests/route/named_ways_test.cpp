// Which of a front are named: small fronts by hand, laws on random ones.
#include "lodeway/route/choose/named_ways.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "lodeway/numeric/random.hpp"

namespace lodeway::route {
namespace {

std::vector<LegCost> front(std::initializer_list<std::pair<double, double>> ways) {
  std::vector<LegCost> all;
  for (const auto& [s, l] : ways) all.push_back({s, l, 0});
  return all;
}

TEST(NamedWays, OneWayIsTheQuickestAndTheReasonIsSaid) {
  const auto n = name_ways(front({{100, 1}}), {});
  EXPECT_EQ(n.quickest, 0U);
  EXPECT_FALSE(n.balanced || n.surest);
  EXPECT_EQ(n.why_no_surest, NotNamed::no_surer);
  EXPECT_EQ(n.why_no_balanced, NotNamed::none_between);
}

TEST(NamedWays, TwoWaysAreQuickestAndSurest) {
  const auto n = name_ways(front({{100, 1}, {200, 0.2}}), {});
  EXPECT_EQ(n.quickest, 0U);
  EXPECT_EQ(n.surest, 1U);
  EXPECT_EQ(n.why_no_surest, NotNamed::given);
  EXPECT_EQ(n.why_no_balanced, NotNamed::none_between);
}

TEST(NamedWays, BalancedIsFarthestBelowTheChord) {
  // Shares of the chord's triangle: 1 - 0.2 - 0.5 = 0.3, 1 - 0.4 - 0.1 = 0.5, 1 - 0.7 - 0.05 =
  // 0.25.
  const auto n = name_ways(front({{100, 1}, {120, 0.5}, {140, 0.1}, {170, 0.05}, {200, 0}}), {});
  EXPECT_EQ(n.balanced, 2U);
  EXPECT_EQ(n.surest, 4U);
}

TEST(NamedWays, ATailThatHardlyGainsIsNotTheSurest) {
  // The last three differ by under two hundredths: the quickest of them is as sure. The tail would
  // also have drawn the chord out and made 180 the best trade.
  const auto n =
      name_ways(front({{100, 1}, {110, 0.3}, {180, 0.105}, {900, 0.1}, {2000, 0.099}}), {});
  EXPECT_EQ(n.surest, 2U);
  EXPECT_EQ(n.balanced, 1U);
}

// A loss less by 0.05 for two hours: 24 minutes for each 1 of 100. For 50 minutes: 10.
TEST(NamedWays, CertaintyAtAnyPriceIsNotTheSurest) {
  const auto dear = name_ways(front({{10000, 0.70}, {17200, 0.65}}), {});
  EXPECT_FALSE(dear.surest);
  EXPECT_EQ(dear.why_no_surest, NotNamed::too_dear);
  const auto fair = name_ways(front({{10000, 0.70}, {13000, 0.65}, {20200, 0.60}}), {});
  EXPECT_EQ(fair.surest, 1U);
}

TEST(NamedWays, BulgingFrontHasNoGoodTrade) {
  const auto n = name_ways(front({{100, 1}, {150, 0.9}, {200, 0}}), {});
  EXPECT_FALSE(n.balanced);
  EXPECT_EQ(n.why_no_balanced, NotNamed::no_good_trade);
}

TEST(NamedWays, DaylightCutsTheFront) {
  const auto ways = front({{100, 1}, {120, 0.5}, {140, 0.1}, {170, 0.05}, {200, 0}});
  AboutWays about;
  about.late_s = [&](std::size_t i) { return ways[i].seconds - 150; };
  const auto n = name_ways(ways, about);
  EXPECT_EQ(n.quickest, 0U);
  EXPECT_EQ(n.surest, 2U);
  EXPECT_EQ(n.balanced, 1U);
  EXPECT_EQ(n.late_s, 0);
}

TEST(NamedWays, AsksOfFewWays) {
  std::vector<LegCost> ways;
  for (int k = 0; k < 300; ++k) ways.push_back({1000.0 + k, std::exp(-0.05 * k), 0});
  std::vector<int> asked(ways.size(), 0);
  AboutWays about;
  about.late_s = [&](std::size_t i) {
    ++asked[i];
    return -1.0;
  };
  const auto n = name_ways(ways, about);
  EXPECT_TRUE(n.surest && n.balanced);
  EXPECT_LE(std::ranges::count(asked, 1), 5);
  EXPECT_EQ(std::ranges::count_if(asked, [](int a) { return a > 1; }), 0);
}

TEST(NamedWays, AWayBetweenThatIsLateIsNotNamed) {
  const auto ways = front({{100, 1}, {120, 0.3}, {140, 0.2}, {200, 0}});
  AboutWays about;  // a slow day falls on ways apart: the first trade is late, those beyond are not
  about.late_s = [](std::size_t i) { return i == 1 ? 5.0 : -5.0; };
  EXPECT_EQ(name_ways(ways, about).balanced, 2U);
}

TEST(NamedWays, NoneInTimeGivesTheLeastLate) {
  const auto ways = front({{100, 1}, {120, 0.5}});
  AboutWays about;
  about.late_s = [](std::size_t i) { return i == 0 ? 40.0 : 30.0; };
  const auto n = name_ways(ways, about);
  EXPECT_EQ(n.quickest, 1U);
  EXPECT_EQ(n.late_s, 30);
  EXPECT_FALSE(n.balanced || n.surest);
}

TEST(NamedWays, AlikeWaysAreOneUnlessMuchSurer) {
  AboutWays about;
  about.common = [](std::size_t, std::size_t) { return 0.95; };
  const auto alike = name_ways(front({{100, 0.12}, {110, 0.1}, {120, 0.08}}), about);
  EXPECT_FALSE(alike.surest || alike.balanced);
  EXPECT_EQ(alike.why_no_surest, NotNamed::alike);
  // In the same place, but with other legs: sure where the other one is not.
  const auto surer = name_ways(front({{100, 1}, {110, 0.98}, {120, 0.08}}), about);
  EXPECT_EQ(surer.surest, 2U);
}

TEST(NamedWays, BalancedIsTheBestTradeThatIsNotLikeTheOthers) {
  const auto ways = front({{100, 0.5}, {110, 0.125}, {130, 0.11}, {180, 0.105}, {200, 0.08}});
  AboutWays about;  // 1 lies where the surest does
  about.common = [](std::size_t a, std::size_t b) { return a + b == 1 + 4 ? 0.9 : 0.5; };
  const auto n = name_ways(ways, about);
  EXPECT_EQ(n.surest, 4U);
  EXPECT_EQ(n.balanced, 2U);
  about.common = [](std::size_t a, std::size_t b) { return std::max(a, b) == 4 ? 0.9 : 0.5; };
  const auto none = name_ways(ways, about);
  EXPECT_FALSE(none.balanced);
  EXPECT_EQ(none.why_no_balanced, NotNamed::between_alike);
}

TEST(NamedWays, LawsOnRandomFronts) {
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    SCOPED_TRACE(seed);
    numeric::Random r(seed);
    std::vector<LegCost> ways;
    double seconds = 1000, loss = 3;
    for (int k = 1 + static_cast<int>(30 * r.uniform()); k > 0; --k) {
      ways.push_back({seconds += 200 * r.uniform(), loss *= 0.4 + 0.599 * r.uniform(), 0});
    }
    const double daylight = 1000 + 4000 * r.uniform();
    AboutWays about;
    about.late_s = [&](std::size_t i) { return ways[i].seconds - daylight; };
    about.common = [&](std::size_t a, std::size_t b) {
      return std::exp(-std::abs(ways[a].seconds - ways[b].seconds) / 500);
    };
    const auto n = name_ways(ways, about);
    const auto alike = [&](std::size_t a, std::size_t b) {
      return std::abs(ways[a].loss - ways[b].loss) < 0.05 && about.common(a, b) > 0.8;
    };
    EXPECT_EQ(n.quickest, 0U);
    EXPECT_EQ(n.surest.has_value(), n.why_no_surest == NotNamed::given);
    EXPECT_EQ(n.balanced.has_value(), n.why_no_balanced == NotNamed::given);
    if (n.surest) {
      EXPECT_LE(ways[*n.surest].seconds, daylight);
      EXPECT_FALSE(alike(0, *n.surest));
      for (const auto& w : ways) {
        const auto& sure = ways[*n.surest];
        EXPECT_TRUE(w.seconds > daylight || w.loss >= sure.loss - 0.02 ||
                    w.seconds - sure.seconds > 72000 * (sure.loss - 0.02 - w.loss));
      }
    }
    if (n.balanced) {
      ASSERT_TRUE(n.surest);
      EXPECT_GT(*n.balanced, 0U);
      EXPECT_LT(*n.balanced, *n.surest);
      EXPECT_FALSE(alike(0, *n.balanced) || alike(*n.balanced, *n.surest));
    }
    // The names do not hang on the units.
    auto minutes = ways;
    for (auto& w : minutes) w.seconds /= 64;
    const NamingRules rules{.most_price_s = 72000.0 / 64};
    EXPECT_EQ(name_ways(minutes, about, rules).surest, n.surest);
    EXPECT_EQ(name_ways(minutes, about, rules).balanced, n.balanced);
  }
}

}  // namespace
}  // namespace lodeway::route
