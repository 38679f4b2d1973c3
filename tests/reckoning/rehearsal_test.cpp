#include "lodeway/reckoning/rehearsal/rehearsal.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <thread>

#include "knowing.hpp"
#include "made_ground.hpp"

namespace rehearsal_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using made::Kind;

/// Two threads, blocks handed out turn by turn.
class TwoThreads final : public numeric::Parallel {
 public:
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override {
    std::jthread other([&] {
      for (std::size_t b = 1; b < blocks; b += 2) run(b);
    });
    for (std::size_t b = 0; b < blocks; b += 2) run(b);
  }
};

struct Scene {
  walking::Ground ground = made::ground();
  walking::Party party;
  walking::Way way;
  Forbidden forbidden;
};

Scene round() {
  Scene s;
  s.party.errors = {2, 3, 60, 0.05, 1e-9, 1e-9};
  s.party.time_band = 0.1;
  made::add_point(s.ground, Kind::hut, {0, 800});
  made::add_point(s.ground, Kind::gate, {900, 800});
  made::add_line(s.ground, Kind::wall, {{900, -900}, {900, 1500}});
  made::add_point(s.ground, Kind::cairn, {500, 0});
  s.way.legs = {made::bearing_leg({0, 0}, {0, 800}), made::bearing_leg({0, 800}, {900, 800}),
                made::along_leg({{900, 800}, {900, 300}}, Kind::wall),
                made::bearing_leg({900, 300}, {500, 0})};
  s.forbidden = Forbidden(s.ground.elevation.frame(), 0);
  for (int r = 0; r < 200; ++r)
    for (int c = 0; c < 200; ++c) {
      const auto p = s.forbidden.frame().centre(r, c);
      if (p.east_m > 60 && p.east_m < 140 && p.north_m > 500 && p.north_m < 700)
        s.forbidden[r, c] = 1;
    }
  return s;
}

TEST(Rehearsal, SameSeedSameBytesOnOneOrTwoThreads) {
  const Scene s = round();
  const Judge judge(s.ground, made::knowing(s.ground, s.party), s.forbidden, 0.5);
  numeric::Serial serial;
  TwoThreads two;
  const auto a = *rehearse(s.ground, judge, s.way, {3001, 7}, serial);
  const auto b = *rehearse(s.ground, judge, s.way, {3001, 7}, two);
  const auto c = *rehearse(s.ground, judge, s.way, {3001, 8}, serial);
  EXPECT_EQ(a.certainty, b.certainty);
  EXPECT_EQ(a.minutes_50, b.minutes_50);
  EXPECT_EQ(a.minutes_90, b.minutes_90);
  EXPECT_EQ(a.strayed, b.strayed);
  for (std::size_t l = 0; l < 4; ++l) {
    EXPECT_EQ(a.legs[l].kept, b.legs[l].kept);
    EXPECT_EQ(a.legs[l].lost, b.legs[l].lost);
    EXPECT_EQ(a.legs[l].minutes_90, b.legs[l].minutes_90);
  }
  EXPECT_NE(a.minutes_50, c.minutes_50);
}

TEST(Rehearsal, TheSumsAddUp) {
  const Scene s = round();
  const Judge judge(s.ground, made::knowing(s.ground, s.party), s.forbidden, 0.5);
  numeric::Serial serial;
  const auto r = *rehearse(s.ground, judge, s.way, {5000, 1}, serial);
  ASSERT_EQ(r.legs.size(), 4U);
  for (const auto& leg : r.legs) {
    std::size_t lost = 0;
    for (const auto n : leg.lost) lost += n;
    EXPECT_EQ(leg.kept + lost, leg.walkers);
    EXPECT_LE(leg.minutes_10, leg.minutes_50);
    EXPECT_LE(leg.minutes_50, leg.minutes_90);
    EXPECT_NEAR(leg.certainty, leg.expected, 3 * leg.certainty_error + 0.012);
  }
  EXPECT_EQ(r.legs[0].walkers, 5000U);
  EXPECT_LE(r.certainty, r.legs[3].certainty);
  EXPECT_GE(r.weakest, 0);
  EXPECT_LT(r.minutes_10, r.minutes_50);
  // every walker sets foot in the first cells of the way
  const auto [row, col] = r.strayed.frame().cell_of({0, 30});
  float there = 0;
  for (int c = col - 2; c <= col + 2; ++c) there += r.strayed[row, c];
  EXPECT_GE(there, 0.95F);
}

// The closed form bounds what the walkers meet: they stop when they see the end.
TEST(Rehearsal, HazardIsBelowItsBound) {
  const Scene s = round();
  const Judge judge(s.ground, made::knowing(s.ground, s.party), s.forbidden, 0.5);
  numeric::Serial serial;
  walking::Way first;
  first.legs = {s.way.legs[0]};
  const auto r = *rehearse(s.ground, judge, first, {20000, 3}, serial);
  Drift carried = judge.at_fix();
  const auto model = judge.weigh(s.way.legs[0], carried);
  EXPECT_GT(r.hazard_share, 0.001);
  EXPECT_LE(r.hazard_share, model.hazard_probability + 3 * r.hazard_error);
  EXPECT_NEAR(r.hazard_share, model.hazard_probability, 0.02);
}

// The second leg leads over a hole in the heights: it is not walked, and nothing is made up for it.
TEST(Rehearsal, AWayOverAVoidIsWalkedWhereThereIsGround) {
  Scene s = round();
  for (int r = 0; r < 200; ++r)
    for (int c = 0; c < 200; ++c) {
      const auto p = s.ground.elevation.frame().centre(r, c);
      if (std::hypot(p.east_m - 450, p.north_m - 800) < 60)
        s.ground.elevation[r, c] = std::numeric_limits<float>::quiet_NaN();
    }
  const Judge judge(s.ground, made::knowing(s.ground, s.party), {}, 0.5);
  numeric::Serial serial;
  const auto r = *rehearse(s.ground, judge, s.way, {3000, 1}, serial);
  EXPECT_TRUE(r.legs[0].rehearsed && r.legs[2].rehearsed && r.legs[3].rehearsed);
  EXPECT_FALSE(r.legs[1].rehearsed);
  EXPECT_EQ(r.legs[1].walkers, 0U);
  EXPECT_NEAR(r.expected, r.legs[0].expected * r.legs[2].expected * r.legs[3].expected, 1e-12);
  EXPECT_LE(r.certainty, r.legs[0].certainty);
  EXPECT_GT(r.legs[2].walkers, 2000U);  // they go on behind it
}

// From the middle of a turn they stray off the ground's edge: that is counted.
TEST(Rehearsal, SaysHowManyStrayOffTheGround) {
  Scene s = round();
  walking::Way way;
  way.legs = {made::bearing_leg({1200, 0}, {1980, 0})};
  const Judge judge(s.ground, made::knowing(s.ground, s.party), {}, 0.5);
  numeric::Serial serial;
  const auto r = *rehearse(s.ground, judge, way, {3000, 1}, serial);
  EXPECT_GT(r.off_ground_share, 0.2);
  EXPECT_LT(r.off_ground_share, 0.5);
}

TEST(Rehearsal, RefusesWhatMakesNoSense) {
  const Scene s = round();
  const Judge judge(s.ground, made::knowing(s.ground, s.party), {}, 0);
  numeric::Serial serial;
  EXPECT_EQ(rehearse(s.ground, judge, s.way, {0, 1}, serial).error().what,
            "walkers: expected at least 1, got 0");
  EXPECT_EQ(rehearse(s.ground, judge, s.way, {1000000000, 1}, serial).error().code,
            FaultCode::too_large);
  EXPECT_FALSE(rehearse(s.ground, judge, {}, {10, 1}, serial));
  walking::Way nowhere;
  nowhere.legs = {made::bearing_leg({0, 0}, {0, 0})};
  EXPECT_EQ(rehearse(s.ground, judge, nowhere, {10, 1}, serial).error().what,
            "leg 1: expected a line of two places or more that are apart");
  nowhere.legs.front().course.line = {{0, 0}};
  EXPECT_FALSE(rehearse(s.ground, judge, nowhere, {10, 1}, serial));
}

// A wrongly set compass is one error of the whole way: legs out and back fail together, so that all
// legs are kept oftener than the product of the legs says.
TEST(Rehearsal, SharedErrorsMakeLegsFailTogether) {
  Scene s;
  s.party.errors = {0.5, 0.5, 60, 0.02, 1e-9, 1e-9};
  made::add_point(s.ground, Kind::cairn, {0, 1000});
  made::add_point(s.ground, Kind::cairn, {0, 0});
  s.way.legs = {made::bearing_leg({0, 0}, {0, 1000}), made::bearing_leg({0, 1000}, {0, 0})};
  const Judge judge(s.ground, made::knowing(s.ground, s.party), {}, 3);
  numeric::Serial serial;
  const auto r = *rehearse(s.ground, judge, s.way, {20000, 3}, serial);
  EXPECT_GT(r.certainty, r.legs[0].certainty * r.legs[1].certainty + 0.05);
}
}  // namespace rehearsal_test
