/// Where to look first, against the published figures of search theory.
#include "lodeway/walkers/overdue.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace {
using namespace lodeway;
using namespace lodeway::walkers;

// Koopman 1980, Search and Screening, ch. 3: random search, P = 1 - exp(-C).
TEST(Overdue, ChanceOfDetection) {
  EXPECT_NEAR(detection(0.5), 0.393469, 5e-7);
  EXPECT_NEAR(detection(1), 0.632121, 5e-7);
  EXPECT_NEAR(detection(2), 0.864665, 5e-7);
  EXPECT_EQ(detection(0), 0);
}

Overdue two_areas() {
  Overdue o;
  o.share = terrain::Raster<float>({0, 100, 50, 2, 2});
  o.share[0, 0] = 0.3F;
  o.share[1, 1] = 0.7F;
  o.areas.push_back({2, {3}, {75, 25}, 0.25, 0.7, 0, Branch::slow, 0});
  o.areas.push_back({1, {0}, {25, 75}, 0.25, 0.3, 0, Branch::lost, 0});
  return o;
}

// Stone 1975, Theory of Optimal Search, ch. 1: p 0.3 looked at in vain with 0.6 becomes 0.146341.
TEST(Overdue, ALookInVainMovesTheShares) {
  const auto o = *looked_at(two_areas(), 1, 0.6);
  EXPECT_EQ(o.areas[0].number, 2);
  EXPECT_NEAR(o.areas[0].share, 0.853659, 5e-7);
  EXPECT_NEAR(o.areas[1].share, 0.146341, 5e-7);
  EXPECT_NEAR(o.areas[1].looked, 0.6, 1e-12);
  EXPECT_NEAR(static_cast<double>(o.share[0, 0]), 0.146341, 1e-6);
  EXPECT_NEAR(static_cast<double>(o.share[1, 1]), 0.853659, 1e-6);
  // twice with 0.6 is once with 1 - 0.4 x 0.4
  const auto twice = *looked_at(o, 1, 0.6), once = *looked_at(two_areas(), 1, 0.84);
  EXPECT_NEAR(twice.areas[1].share, once.areas[1].share, 1e-12);
  EXPECT_NEAR(twice.areas[1].looked, 0.84, 1e-12);
}

TEST(Overdue, TheOrderFollowsWhatIsLeft) {
  const auto o = *looked_at(two_areas(), 2, 0.9);
  EXPECT_EQ(o.areas[0].number, 1);
  EXPECT_GT(o.areas[0].share, o.areas[1].share);
}

TEST(Overdue, RefusesWhatIsNoLook) {
  EXPECT_EQ(looked_at(two_areas(), 7, 0.5).error().what,
            "looked: expected an area from 1 to 2, got 7");
  EXPECT_FALSE(looked_at(two_areas(), 1, 1.0));
  EXPECT_FALSE(looked_at(two_areas(), 1, -0.1));
}

// Made stands: 60 parties about one place, 30 about another, 10 home; 1 500 m apart.
TEST(Overdue, DenserGroundFirst) {
  Walked w;
  w.walked = 100;
  std::vector<Stand> stands;
  for (int i = 0; i < 100; ++i) {
    Stand s;
    s.at = i < 60 ? GridPoint{1000 + 5.0 * (i % 10), 1000 + 5.0 * (i / 10)}
                  : GridPoint{2500 + 5.0 * (i % 10), 1000};
    s.state = i >= 90 ? State::through : i < 60 ? State::staying : State::escaping;
    s.leg = 2;
    s.lost_on = static_cast<std::int16_t>(i < 60 ? 1 : -1);
    stands.push_back(s);
  }
  w.stands = {stands};
  const auto o = overdue_at(w, 0, 900);
  EXPECT_EQ(o.home, 10U);
  ASSERT_EQ(o.branches.size(), 2U);
  EXPECT_EQ(o.branches[0].branch, Branch::lost);
  EXPECT_EQ(o.branches[0].leg, 1);
  EXPECT_NEAR(o.branches[0].share, 60.0 / 90, 1e-12);
  EXPECT_EQ(o.branches[1].branch, Branch::escaped);
  ASSERT_GE(o.areas.size(), 2U);
  EXPECT_LT(earth::grid_distance_m(o.areas[0].middle, {1022, 1012}), 20);
  EXPECT_GT(o.areas[0].share, o.areas[1].share);
  double all = o.elsewhere, raster = 0;
  for (const auto& a : o.areas) {
    all += a.share;
    EXPECT_GT(a.hectares, 0);
    EXPECT_LE(a.hectares, 25);
  }
  for (const float v : o.share.cells()) raster += static_cast<double>(v);
  EXPECT_NEAR(all, 1, 1e-6);
  EXPECT_NEAR(raster, 1 - outside_model, 1e-4);
  for (std::size_t k = 1; k < o.areas.size(); ++k)
    EXPECT_GE(o.areas[k - 1].per_hectare(), o.areas[k].per_hectare());
}

TEST(Overdue, EverybodyHomeIsNoMap) {
  Walked w;
  w.walked = 1;
  Stand s;
  s.state = State::through;
  w.stands = {{s}};
  const auto o = overdue_at(w, 0, 900);
  EXPECT_TRUE(o.areas.empty());
  EXPECT_TRUE(o.share.empty());
  EXPECT_EQ(o.home, 1U);
}
}  // namespace
