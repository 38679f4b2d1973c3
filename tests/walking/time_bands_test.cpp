// The nine-in-ten time of several legs against parties drawn one by one (the standard library's
// generator and normal deviates).
#include "lodeway/walking/time_bands.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include "lodeway/walking/party.hpp"

namespace lodeway::walking {
namespace {

// One leg is a plain log-normal: 60 e^(1.28155 x sqrt(0.20^2 + 0.32^2)) = 60 x 1.6220.
TEST(TimeBands, OneLegIsExact) {
  const double minutes[] = {60.0};
  EXPECT_NEAR(nine_in_ten_minutes(minutes, default_bands(TimeModel::naismith_langmuir)),
              60 * std::exp(1.2815515655446004 * std::sqrt(0.04 + 0.1024)), 1e-9);
  EXPECT_EQ(nine_in_ten_minutes({}, {}), 0);
}

TEST(TimeBands, ManyLegsAgreeWithPartiesDrawnOneByOne) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> normal;
  constexpr int parties = 200000;
  for (const int legs : {2, 5, 12, 30}) {
    for (const double leg_sigma : {0.1, 0.32}) {
      const TimeBands bands{1, 0.2, leg_sigma, 0.5};
      std::vector<double> minutes;
      for (int l = 0; l < legs; ++l) minutes.push_back(10 + 7 * (l % 5));
      std::vector<double> sums;
      for (int p = 0; p < parties; ++p) {
        const double shared = bands.shared * normal(random);
        double log = leg_sigma * normal(random), sum = 0;
        for (int l = 0; l < legs; ++l) {
          if (l > 0) log = 0.5 * log + std::sqrt(0.75) * leg_sigma * normal(random);
          sum += minutes[static_cast<std::size_t>(l)] * std::exp(shared + log);
        }
        sums.push_back(sum);
      }
      std::ranges::nth_element(sums, sums.begin() + parties * 9 / 10);
      const double drawn = sums[parties * 9 / 10];
      EXPECT_NEAR(nine_in_ten_minutes(minutes, bands) / drawn, 1, 0.01) << legs << leg_sigma;
    }
  }
}

TEST(TimeBands, WhatThePartySaysStandsBeforeTheTable) {
  Party party;
  EXPECT_EQ(bands_of(party).centre, 1.15);
  EXPECT_EQ(bands_of(party).leg, 0.32);
  party.time_band = 0.1;
  EXPECT_EQ(bands_of(party).centre, 1);
  EXPECT_EQ(bands_of(party).shared, 0.1);
  EXPECT_EQ(bands_of(party).leg, 0);
  party.bands = TimeBands{1.02, 0.12, 0.2};
  EXPECT_EQ(bands_of(party).shared, 0.12);
}

}  // namespace
}  // namespace lodeway::walking
