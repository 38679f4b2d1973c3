// Ways over each leg beside the best way, after any change: against the plainest search there is.
#include "lodeway/route/graph/both_ways.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace lodeway::route {
namespace {

using Group = BothWays::Group;
constexpr std::uint32_t places = 60, start = 3, end = 41;
constexpr auto groups = static_cast<BothWays::Groups>(Group::near_line) |
                        static_cast<BothWays::Groups>(Group::known) |
                        static_cast<BothWays::Groups>(Group::open);

struct Known {
  Arc arc;
  Group group;
};

/// Every leg again and again until nothing gets less (Bellman 1958).
std::vector<double> plain(const std::vector<Known>& legs, const Limits& within, double price_s,
                          BothWays::Groups taken, bool back) {
  std::vector<double> out(places, no_limit);
  out[back ? end : start] = 0;
  for (bool less = true; less;) {
    less = false;
    for (const auto& [a, group] : legs) {
      if ((taken & static_cast<unsigned>(group)) == 0 || a.cost.loss > within.leg_loss) continue;
      const double sum =
          out[back ? a.to : a.from] + a.cost.seconds + price_s * a.cost.loss;
      auto& there = out[back ? a.from : a.to];
      if (sum < there) there = sum, less = true;
    }
  }
  return out;
}

class Searched : public ::testing::TestWithParam<unsigned> {
 protected:
  void SetUp() override {
    for (int i = 0; i < 400; ++i) add();
  }
  double some(double most) { return std::uniform_real_distribution<double>(0, most)(dice); }
  std::uint32_t one_of(std::size_t n) { return static_cast<std::uint32_t>(dice() % n); }
  LegCost any_cost() { return {10 + some(2000), some(1) < 0.3 ? 0 : some(0.4), 0}; }
  void add() {
    const Group sort[]{Group::near_line, Group::line, Group::known, Group::open, Group::far};
    Known leg{{one_of(places), one_of(places), any_cost()}, sort[one_of(5)]};
    ASSERT_EQ(ways.add(leg.arc, leg.group), legs.size());
    legs.push_back(leg);
  }
  void change() {
    const auto i = one_of(legs.size());
    switch (one_of(8)) {
      case 0: add(); break;
      case 1: ways.group(i, legs[i].group = Group::gone); add(); break;
      case 2:
        if (legs[i].group != Group::gone) ways.group(i, legs[i].group = Group::known);
        break;
      case 3:
        if (one_of(4) == 0) ways.limit(within = {.leg_loss = 0.15 + some(0.5)});
        break;
      default: ways.cost(i, legs[i].arc.cost = any_cost());
    }
  }
  /// Of each leg the least share over the best at any of the prices.
  std::vector<double> over(BothWays::Groups taken) const {
    std::vector<double> out(legs.size(), no_limit);
    for (const double price : BothWays::prices_s) {
      const auto there = plain(legs, within, price, taken, false),
                 back = plain(legs, within, price, taken, true);
      const double best = there[end];
      if (best == no_limit) return {};
      for (std::size_t i = 0; i < legs.size(); ++i) {
        const auto& a = legs[i].arc;
        if (a.cost.loss > within.leg_loss) continue;
        const double sum = there[a.from] + a.cost.seconds + price * a.cost.loss + back[a.to];
        out[i] = std::min(out[i], (sum - best) / (best + BothWays::slack_s));
      }
    }
    return out;
  }

  std::mt19937 dice{GetParam()};
  numeric::Serial serial;
  Limits within;
  BothWays ways{start, end, within, serial};
  std::vector<Known> legs;
};

TEST_P(Searched, AreAsFarOverTheBestAsThePlainestSearchSays) {
  int led = 0;
  for (int turn = 0; turn < 300; ++turn) {
    for (auto changes = one_of(4); changes > 0; --changes) change();
    const double at_most = some(0.5);
    const auto truth = over(groups);
    ASSERT_EQ(ways.search(groups, at_most), !truth.empty()) << turn;
    for (std::size_t i = 0; i < truth.size(); ++i) {
      if ((groups & static_cast<unsigned>(legs[i].group)) == 0) continue;
      const double told = ways.over(legs[i].arc);
      if (truth[i] <= at_most) {
        ASSERT_NEAR(told, truth[i], 1e-9) << "turn " << turn << ", leg " << i;
      } else {
        ASSERT_GE(told, at_most) << "turn " << turn << ", leg " << i;
      }
    }
    led += truth.empty() ? 0 : 1;
  }
  EXPECT_GT(led, 100);  // else nothing was asked
}

TEST_P(Searched, PlacesOverAllLegsAreAsFar) {
  constexpr BothWays::Groups all = 31;
  for (int turn = 0; turn < 300; ++turn) {
    for (auto changes = one_of(4); changes > 0; --changes) change();
    std::vector<double> truth(places, no_limit);
    for (const double price : BothWays::prices_s) {
      const auto there = plain(legs, within, price, all, false),
                 back = plain(legs, within, price, all, true);
      for (std::uint32_t i = 0; i < places; ++i) {
        truth[i] = std::min(truth[i], (there[i] + back[i] - there[end]) /
                                          (there[end] + BothWays::slack_s));
      }
    }
    if (one_of(3) == 0) (void)ways.search(groups, 0.01);
    const auto told = ways.over_all(places);
    const bool leads = plain(legs, within, 0, all, false)[end] < no_limit;
    ASSERT_EQ(!told.empty(), leads) << turn;
    for (std::uint32_t i = 0; leads && i < places; ++i) {
      if (truth[i] == no_limit) {
        ASSERT_EQ(told[i], no_limit) << "turn " << turn << ", place " << i;
      } else {
        ASSERT_NEAR(told[i], truth[i], 1e-9) << "turn " << turn << ", place " << i;
      }
    }
    const auto seconds = ways.seconds(places, true), plainly = plain(legs, within, 0, all, true);
    for (std::uint32_t i = 0; i < places; ++i) {
      const bool there = plainly[i] < no_limit;
      ASSERT_EQ(seconds[i] < no_limit, there) << i;
      EXPECT_NEAR(there ? seconds[i] : 0, there ? plainly[i] : 0, 1e-6) << i;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Seeds, Searched, ::testing::Values(1U, 2U, 3U, 4U, 5U, 6U));

}  // namespace
}  // namespace lodeway::route
