#include "lodeway/reckoning/judge.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "lodeway/reckoning/point_target.hpp"
#include "made_ground.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::reckoning;
using made::Kind;

walking::Party party() {
  walking::Party p;
  p.errors = {2, 3, 100, 0.05};
  return p;
}

walking::Sureness judged(const walking::Ground& g, walking::Leg& leg, const walking::Party& p) {
  const Judge judge(g, p, {}, 0);
  Drift carried = judge.at_fix();
  (void)judge.judge(leg, carried);
  return *leg.sureness;
}

// By hand: cross^2 = 25 + (800 * 2 deg)^2 + 800 * 100 * (3 deg)^2 = 25 + 779.8 + 219.3 -> 32.00 m; along
// sqrt(25 + 40^2) = 40.31 m. The cairn is seen from 40 m: P(|c| < 40) = 0.788, less those who give up early.
TEST(Judge, BearingLegToAPoint) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto s = judged(g, leg, party());
  EXPECT_NEAR(s.cross_sigma_m, 32.00, 5e-3);
  EXPECT_NEAR(s.along_sigma_m, 40.31, 5e-3);
  EXPECT_LT(s.certainty, passes_within(32, 0, 40));
  EXPECT_GT(s.certainty, passes_within(32, 0, 40) - 0.02);
  EXPECT_TRUE(s.fix_at_end);
  EXPECT_FALSE(leg.aim_off);
  EXPECT_NEAR(s.north_north_m2, s.along_sigma_m * s.along_sigma_m, 1e-6);
  EXPECT_NE(s.if_lost.find("turn round and go back to the start"), std::string::npos);
}

TEST(Judge, LineEndIsAimedOffAndTheHandIsTold) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 800}, {1500, 800}});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  const double paces = leg.double_paces;
  const auto s = judged(g, leg, party());
  ASSERT_TRUE(leg.aim_off);
  EXPECT_EQ(leg.aim_off->line, "wall");
  EXPECT_GT(leg.aim_off->offset_m, 32);
  EXPECT_NEAR(std::abs(leg.aim_off->aim.east_m), leg.aim_off->offset_m, 1e-6);
  EXPECT_EQ(leg.aim_off->side == mapdata::Side::left, leg.aim_off->aim.east_m < 0);
  EXPECT_NEAR(std::abs(std::tan(leg.grid_bearing.in_radians())), leg.aim_off->offset_m / 800, 1e-9);
  EXPECT_NEAR(leg.double_paces / paces, std::hypot(800, leg.aim_off->offset_m) / 800, 1e-9);
  EXPECT_GT(s.certainty, 0.97);
}

TEST(Judge, WithNothingToSeeTheErrorIsCarriedOn) {
  auto g = made::ground();
  made::add_point(g, Kind::hut, {600, 600});
  walking::Way way;
  way.legs = {made::bearing_leg({0, 0}, {0, 600}), made::bearing_leg({0, 600}, {600, 600})};
  const auto p = party();
  const Judge judge(g, p, {}, 0);
  const double all = judge.judge(way);
  EXPECT_FALSE(way.legs[0].sureness->fix_at_end);
  EXPECT_EQ(way.legs[0].sureness->certainty, 1);
  // seen from the second leg, the first leg's along error lies across: cross^2 = own cross^2 + 30^2 + 0
  const double own = 25 + std::pow(600 * 2 * M_PI / 180, 2) + 600 * 100 * std::pow(3 * M_PI / 180, 2);
  EXPECT_NEAR(way.legs[1].sureness->cross_sigma_m, std::sqrt(own + 30 * 30), 1e-6);
  EXPECT_EQ(all, way.legs[1].sureness->certainty);
}

TEST(Judge, LikeLineBeforeTheEndIsNamed) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 800}, {1500, 800}});
  auto alone = made::bearing_leg({0, 0}, {0, 800});
  const double before = judged(g, alone, party()).certainty;
  made::add_line(g, Kind::wall, {{-1500, 750}, {1500, 750}});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto s = judged(g, leg, party());
  EXPECT_NE(s.confusable.find("wall"), std::string::npos) << s.confusable;
  EXPECT_NEAR(s.confusable_probability, 0.27, 0.03);  // Phi(-50 / (2 * 39)) = 0.26
  EXPECT_NEAR(s.certainty, before * (1 - s.confusable_probability), 1e-9);
}

TEST(Judge, HandrailToAMarkAndByCount) {
  auto g = made::ground();
  made::add_line(g, Kind::path, {{0, 0}, {0, 900}});
  auto by_count = made::along_leg({{0, 0}, {0, 900}}, Kind::path);
  const auto s = judged(g, by_count, party());
  EXPECT_FALSE(s.fix_at_end);
  EXPECT_NEAR(s.along_sigma_m, 45, 1e-9);
  EXPECT_NEAR(s.certainty, std::pow(0.97, 0.9) * passes_within(45, 0, 50), 1e-9);
  by_count.ticks.push_back({"beck crosses", Kind::stream, mapdata::Side::none, 700, 0, {}});
  EXPECT_NEAR(judged(g, by_count, party()).along_sigma_m, 10, 1e-9);
  made::add_point(g, Kind::gate, {0, 900});
  EXPECT_NEAR(judged(g, by_count, party()).certainty, std::pow(0.97, 0.9), 1e-3);
}

TEST(Judge, AStopAheadIsWhereToGo) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  leg.stop = walking::Stop{"Fallow Beck", Kind::stream, 200, 3, {{-500, 1000}, {500, 1000}}};
  const auto s = judged(g, leg, party());
  EXPECT_EQ(s.if_lost, "If the end does not come, go on to the Fallow Beck, 200 m beyond, and find your place from there.");
  EXPECT_NEAR(s.recovery_minutes, 10 + 400 * 0.015, 1e-9);
}

RC_GTEST_PROP(Judge, MoreErrorIsNeverSurer, ()) {
  auto g = made::ground();
  made::add_point(g, *rc::gen::element(Kind::hut, Kind::cairn, Kind::gate), {0, 900});
  if (*rc::gen::arbitrary<bool>()) made::add_line(g, Kind::wall, {{-900, 800.0 + *rc::gen::inRange(0, 100)}, {0, 900}, {1200, 950}});
  auto p = party();
  auto a = made::bearing_leg({0, 0}, {0, 900}), b = a;
  const double here = judged(g, a, p).certainty, more = 1 + 0.01 * *rc::gen::inRange(5, 60);
  p.errors.bearing_sigma_deg *= more;
  p.errors.sighting_sigma_deg *= more;
  RC_ASSERT(judged(g, b, p).certainty <= here + 2e-3);
}

RC_GTEST_PROP(Judge, MirroredGroundMirrorsTheAimOff, ()) {
  const double bend = *rc::gen::inRange(-200, 200), end = *rc::gen::inRange(50, 900);
  auto g = made::ground(), h = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_point(h, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-700, 800 + bend}, {0, 800}, {end, 820}});
  made::add_line(h, Kind::wall, {{700, 800 + bend}, {0, 800}, {-end, 820}});
  auto a = made::bearing_leg({0, 0}, {0, 800}), b = a;
  const auto sa = judged(g, a, party()), sb = judged(h, b, party());
  RC_ASSERT(std::abs(sa.certainty - sb.certainty) < 2e-3);
  RC_ASSERT(a.aim_off.has_value() == b.aim_off.has_value());
  if (a.aim_off) {
    RC_ASSERT(a.aim_off->side != b.aim_off->side);
    RC_ASSERT(std::abs(a.aim_off->aim.east_m + b.aim_off->aim.east_m) < 2);
  }
}

RC_GTEST_PROP(Judge, CuttingAStraightLegInTwoChangesNothing, ()) {
  auto g = made::ground();
  made::add_point(g, Kind::hut, {0, 900});
  const double cut = *rc::gen::inRange(150, 750);
  const auto p = party();
  const Judge judge(g, p, {}, 1);
  walking::Way one, two;
  one.legs = {made::bearing_leg({0, 0}, {0, 900})};
  two.legs = {made::bearing_leg({0, 0}, {0, cut}), made::bearing_leg({0, cut}, {0, 900})};
  const double a = judge.judge(one), b = judge.judge(two);
  // the second part gives up 2 sigma past its own, shorter count: the along error's scale beyond differs
  RC_ASSERT(std::abs(a - b) < 2e-2);
  RC_ASSERT(std::abs(one.legs[0].sureness->cross_sigma_m - two.legs[1].sureness->cross_sigma_m) < 1e-9);
  RC_ASSERT(std::abs(one.legs[0].sureness->along_sigma_m - two.legs[1].sureness->along_sigma_m) < 1e-9);
}
}  // namespace
