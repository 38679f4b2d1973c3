#include "lodeway/reckoning/judge/teller.hpp"

#include <cstdlib>

#include <gtest/gtest.h>

#include <rapidcheck.h>
#include <rapidcheck/gtest.h>
#include <thread>

#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "knowing.hpp"
#include "made_ground.hpp"

namespace judge_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using made::Kind;

walking::Party party() {
  walking::Party p;
  p.errors = {2, 3, 100, 0.05, 1e-9, 1e-9};  // one leg alone: nothing is shared
  return p;
}

Judged judged(const Judge& judge, const walking::Leg& leg, Drift& carried) {
  return Teller(judge).judged(leg, judge.weigh(leg, carried));
}
Judged judged(const walking::Ground& g, const walking::Leg& leg, const walking::Party& p) {
  const Judge judge(g, made::knowing(g, p), {}, 0);
  Drift carried = judge.at_fix();
  return judged(judge, leg, carried);
}

// By hand: cross^2 = 25 + (800 * 2 deg)^2 + 800 * 100 * (3 deg)^2 = 25 + 779.8 + 219.3 -> 32.00 m;
// along sqrt(25 + 40^2) = 40.31 m. The cairn is seen from 40 m: P(|c| < 40) = 0.788, less those who
// give up early.
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
  EXPECT_FALSE(s.after);
  EXPECT_NEAR(s.at_end.yy, s.along_sigma_m * s.along_sigma_m, 1e-6);
  EXPECT_NE(s.if_lost.find("turn round and look for the end as you go back"), std::string::npos);  // 800 m
}

TEST(Judge, LineEndIsAimedOffAndTheHandIsTold) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 800}, {1500, 800}});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto s = judged(g, leg, party());
  ASSERT_TRUE(s.needle && s.after);
  const auto& aim = s.needle->aim;
  const double off = s.after->map_m;
  EXPECT_EQ(s.after->line, "wall");
  EXPECT_GT(off, 32);
  EXPECT_NEAR(std::abs(aim.east_m), off, 1e-6);
  EXPECT_EQ(s.after->aimed_to == mapdata::Side::left, aim.east_m < 0);
  EXPECT_NEAR(std::abs(std::tan(s.needle->bearing.in_radians())), off / 800, 1e-9);
  EXPECT_GT(s.certainty, 0.97);
  // each part has its share of the straight leg's length, paces and minutes: 800 m on this ground
  const auto& f = leg.figures;
  const double share = std::hypot(800, off) / 800;
  EXPECT_NEAR(s.needle->length_m, share * f.length_m, 1e-9);
  EXPECT_NEAR(s.needle->double_paces, share * f.double_paces, 1e-9);
  EXPECT_NEAR(s.needle->minutes, share * f.minutes, 1e-9);
  EXPECT_NEAR(s.after->double_paces, off / 800 * f.double_paces, 1e-9);
  EXPECT_NEAR(s.minutes, s.needle->minutes + s.after->minutes, 1e-9);
  EXPECT_NEAR(s.length_m, s.needle->length_m + s.after->length_m, 1e-9);
  EXPECT_NEAR(s.minutes_slow / s.minutes, f.minutes_slow / f.minutes, 1e-9);
}

// A faint path whose junction nobody would know: to stand on it near enough is what counts.
TEST(Judge, ALineIsEnoughWhereItsMarkIsHardlyKnown) {
  auto g = made::ground();
  g.kinds[Kind::gate].recognised = {0.2, 0.2, 0.2, 0.2};
  made::add_point(g, Kind::gate, {0, 400});
  made::add_line(g, Kind::stream, {{-900, 400}, {900, 400}});
  auto leg = made::bearing_leg({0, 0}, {0, 400});
  const auto s = judged(g, leg, party());
  EXPECT_FALSE(s.after);
  EXPECT_NEAR(s.certainty, 0.95 * passes_within(s.cross_sigma_m, 0, 50), 0.01);
}

TEST(Judge, WithNothingToSeeTheErrorIsCarriedOn) {
  auto g = made::ground();
  made::add_point(g, Kind::hut, {600, 600});
  walking::Way way;
  way.legs = {made::bearing_leg({0, 0}, {0, 600}), made::bearing_leg({0, 600}, {600, 600})};
  const auto p = party();
  const Judge judge(g, made::knowing(g, p), {}, 0);
  const auto said = Teller(judge).judged(way);
  EXPECT_FALSE(said.legs[0].judged.fix_at_end);
  EXPECT_EQ(said.legs[0].judged.certainty, 1);
  // seen from the second leg, the first leg's along error lies across: cross^2 = own cross^2 + 30^2
  // + 0
  const double own =
      25 + std::pow(600 * 2 * M_PI / 180, 2) + 600 * 100 * std::pow(3 * M_PI / 180, 2);
  EXPECT_NEAR(said.legs[1].judged.cross_sigma_m, std::sqrt(own + 30 * 30), 1e-6);
  EXPECT_EQ(said.certainty, said.legs[1].judged.certainty);
}

// A way that ends where nothing is to be seen is not sure: cross 23.6 m by hand from its parts,
// along sqrt(25 + 30^2), the share of that normal in a disc of 50 m; and the rehearsal says the
// same.
TEST(Judge, AWayThatEndsAtNothing) {
  const auto g = made::ground();
  walking::Way way;
  way.legs = {made::bearing_leg({0, 0}, {0, 600})};
  const auto p = party();
  const Judge judge(g, made::knowing(g, p), {}, 0);
  const auto said = Teller(judge).judged(way);
  const double cross2 =
      25 + std::pow(600 * 2 * M_PI / 180, 2) + 600 * 100 * std::pow(3 * M_PI / 180, 2);
  EXPECT_NEAR(said.certainty, numeric::disc_probability({cross2, 0, 25 + 30 * 30}, 0, 0, 50), 1e-9);
  EXPECT_EQ(said.legs[0].judged.if_lost,
            "Nothing will stop you and nothing marks the end: stop on your count, and look round for it "
            "within 70 m.");
  numeric::Serial serial;
  const auto r = *rehearse(g, judge, way, {20000, 1}, serial);
  EXPECT_NEAR(r.certainty, said.certainty, 3 * r.certainty_error + 0.003);
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
  made::add_line(g, Kind::path, {{0, 0}, {0, 1500}});
  auto by_count = made::along_leg({{0, 0}, {0, 900}}, Kind::path);
  const auto s = judged(g, by_count, party());
  EXPECT_FALSE(s.fix_at_end);
  EXPECT_NEAR(s.along_sigma_m, 45, 1e-9);
  EXPECT_NEAR(s.certainty, std::pow(0.97, 0.225) * passes_within(45, 0, 50), 1e-9);
  by_count.ticks.push_back({"beck crosses", Kind::stream, mapdata::Side::none, 700, 0, {}});
  // noticed by 0.95 x 0.8 of them: 10 m from there, 45 from the start for the others
  EXPECT_NEAR(judged(g, by_count, party()).along_sigma_m, std::sqrt(0.76 * 100 + 0.24 * 2025),
              1e-9);
  made::add_point(g, Kind::gate, {0, 900});
  EXPECT_NEAR(judged(g, by_count, party()).certainty, std::pow(0.97, 0.225), 1e-3);
}

// A planner's figures are the card's, and asking for them changes nothing, from any thread.
TEST(Judge, AssessingIsJudgingWithoutWords) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 760}, {1500, 840}});
  made::add_line(g, Kind::wall, {{-1500, 700}, {1500, 720}});
  const auto p = party();
  Forbidden pond(g.elevation.frame(), 0);
  pond[pond.frame().cell_of({40, 500}).first, pond.frame().cell_of({40, 500}).second] = 1;
  const Judge judge(g, made::knowing(g, p), pond, 0.4);
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto before = judge.at_fix();
  std::vector<LegFigures> figures;
  figures.reserve(8);
  for (int i = 0; i < 8; ++i) figures.push_back(judge.assess(leg, before));
  std::vector<double> other(8);
  std::jthread([&] {
    for (auto& c : other) c = judge.assess(leg, before).certainty;
  }).join();
  const double straight = leg.figures.minutes;
  Drift carried = judge.at_fix();
  const auto told = judged(judge, leg, carried);
  for (const auto& f : figures) {
    EXPECT_EQ(f.certainty, told.certainty);
    // small hazards are worked out roughly; 0.02: what hazard_probability itself keeps to
    EXPECT_NEAR(f.hazard_probability, told.hazard_probability, 0.02);
    EXPECT_EQ(f.hazard_probability, figures.front().hazard_probability);
    EXPECT_GT(f.hazard_probability, 0);
    EXPECT_NEAR(f.minutes, told.minutes, 1e-9);
    EXPECT_GT(f.minutes, straight);
    EXPECT_EQ(f.recovery_minutes, told.recovery_minutes);
    EXPECT_NEAR(f.expected_minutes, f.minutes + (1 - f.certainty) * f.recovery_minutes, 1e-9);
    EXPECT_EQ(f.aim, told.needle->aim);
    EXPECT_EQ(f.carried.total(), carried.total());
    EXPECT_TRUE(f.fix_at_end);
  }
  for (const double c : other) EXPECT_EQ(c, figures.front().certainty);
}

// Two walls that the map draws in pieces are two walls: whoever meets one beside its piece has met
// it.
TEST(Judge, ALineGoesOnWhereTheMapCutsIt) {
  auto whole = made::ground(), cut = made::ground();
  for (auto* g : {&whole, &cut}) made::add_point(*g, Kind::gate, {0, 800});
  made::add_line(whole, Kind::wall, {{-1500, 800}, {0, 800}, {1500, 800}});
  made::add_line(cut, Kind::wall, {{-1500, 800}, {0, 800}});
  made::add_line(cut, Kind::wall, {{0, 800}, {1500, 800}});
  auto a = made::bearing_leg({0, 0}, {0, 800}), b = a;
  EXPECT_EQ(judged(whole, a, party()).certainty, judged(cut, b, party()).certainty);
}

TEST(Judge, WhatToDoOnALineWhoseEndNothingMarks) {
  auto g = made::ground();
  made::add_line(g, Kind::path, {{0, 0}, {0, 1500}});
  auto leg = made::along_leg({{0, 0}, {0, 900}}, Kind::path);
  EXPECT_EQ(judged(g, leg, party()).if_lost,
            "Nothing will stop you: 90 m past your count (56 double paces) turn round, and look for the end on the "
            "last 180 m of the path.");
  leg.ticks.push_back({"wall crosses", Kind::wall, mapdata::Side::none, 700, 0, {}});
  EXPECT_EQ(judged(g, leg, party()).if_lost,
            "Not at the end by 20 m past your count (12 double paces)? Turn back along the path to “wall crosses”, 200 "
            "m, and count again.");
}

// A bend of the path itself is no branch; a like path that leaves it is, straight on worse than
// back.
TEST(Judge, BranchesOfAHandrail) {
  auto g = made::ground();
  const std::vector<GridPoint> bent{{0, 0}, {0, 300}, {300, 300}, {300, 600}};
  made::add_line(g, Kind::path, bent);
  made::add_point(g, Kind::gate, {300, 600});
  auto leg = made::along_leg(bent, Kind::path);
  const double alone = judged(g, leg, party()).certainty;
  EXPECT_NEAR(alone, std::pow(0.97, 900.0 / 4000), 1e-3);
  auto ahead = g, back = g;
  made::add_line(ahead, Kind::path, {{300, 300}, {600, 330}});
  made::add_line(back, Kind::path, {{300, 300}, {100, 100}});
  const double misses_ahead = 1 - judged(ahead, leg, party()).certainty / alone;
  const double misses_back = 1 - judged(back, leg, party()).certainty / alone;
  // The party comes from the west: its own way turns off by a right angle and weighs (1/2)^2, the
  // other hardly turns, cosine 300 / hypot(300, 30) = 0.99504, and weighs 0.99752^2 = 0.99504. Of
  // those who look 0.02 x 2 err: 0.04 x 0.99504 / 1.24504 = 0.03197. The one behind, cosine
  // -0.70711, weighs 0.14645^2 = 0.02145: 0.04 x 0.02145 / 0.27145 = 0.00316.
  EXPECT_NEAR(misses_ahead, 0.03197, 1e-4);
  EXPECT_NEAR(misses_back, 0.00316, 1e-4);
  EXPECT_GT(misses_ahead, misses_back);
  EXPECT_GT(misses_back, 0);
  // at a fork from where the gate is seen only those err who do not know it
  auto near = leg;
  near.course.line.back() = {300, 300 + 0.9 * g.kinds[Kind::gate].seen_from_m[0]};
  auto fork = ahead;
  made::add_point(fork, Kind::gate, near.course.line.back());
  auto none = g;
  made::add_point(none, Kind::gate, near.course.line.back());
  auto free = near;
  const double misses_near =
      1 - judged(fork, near, party()).certainty / judged(none, free, party()).certainty;
  EXPECT_NEAR(misses_near, misses_ahead * (1 - g.kinds[Kind::gate].recognised[0]), 1e-3);
}

// A path turns off another. To who has come by it the arm behind is none to follow; to who has come
// from elsewhere it is one.
TEST(Judge, TheArmThatOneCameByIsNoBranch) {
  auto g = made::ground();
  const std::vector<GridPoint> before{{-400, 0}, {0, 0}}, leg{{0, 0}, {0, 600}};
  made::add_line(g, Kind::path, before);
  made::add_line(g, Kind::path, leg);
  made::add_line(g, Kind::path, {{0, 0}, {300, 300}});
  made::add_point(g, Kind::gate, {0, 600});
  walking::Party novice = party();
  novice.skill = walking::Skill::novice;
  const Judge judge(g, novice, {}, 0.5);
  walking::Way way{"", {made::along_leg(before, Kind::path), made::along_leg(leg, Kind::path)}};
  Drift come = judge.at_fix();
  (void)judge.weigh(way.legs[0], come);
  const auto keeps = [&](Drift carried) { return std::get<ByHandrail>(judge.weigh(way.legs[1], carried).end).keeps; };
  const double after = keeps(come), alone = keeps(judge.at_fix());
  const auto& chances = judge.guides().chances();
  const double look = chances.of(sight::Setting::fork_attention),
               branch = chances.of(sight::ChanceOf::branch, Kind::path),
               stay = std::pow(chances.of(sight::ChanceOf::stay, Kind::path), 0.6);
  const double errs = 2 * look * (1 - branch) + 1 - look;
  // Straight on weighs 1. The arm half right: ((1 + cos 45)/2)^2 = 0.85355^2 = 0.72855; the arm that
  // one came by, a right angle off: 0.25.
  EXPECT_NEAR(after, stay * (1 - errs * 0.72855 / 1.72855), 1e-5);
  EXPECT_NEAR(alone, stay * (1 - errs * 0.97855 / 1.97855), 1e-5);
  // whoever came over open ground to the junction has come by no arm
  Drift over = judge.at_fix();
  (void)judge.weigh(made::bearing_leg({-400, 0}, {0, 0}), over);
  EXPECT_NEAR(keeps(over), alone, 1e-9);
  EXPECT_TRUE(comes_alike(way.legs[1], judge.at_fix(), over));
  EXPECT_FALSE(comes_alike(way.legs[1], over, come));
  // who turns round goes back by the arm that was just walked, and takes no other
  const auto back = made::along_leg({before[1], before[0]}, Kind::path);
  const auto keeps_back = [&](Drift carried) { return std::get<ByHandrail>(judge.weigh(back, carried).end).keeps; };
  EXPECT_NEAR(keeps_back(come), std::pow(chances.of(sight::ChanceOf::stay, Kind::path), 0.4), 1e-9);
  EXPECT_LT(keeps_back(judge.at_fix()), keeps_back(come) - 0.01);
}

// Along a path to a gate, another gate 100 m before it: taken for the end by who has counted over 50 m
// too much when it comes there.
TEST(Judge, WhatStandsOnTheLineAndLooksLikeItsEnd) {
  auto g = made::ground();
  const std::vector<GridPoint> path{{0, 0}, {0, 1400}};
  made::add_line(g, Kind::path, path);
  made::add_point(g, Kind::gate, {0, 1000});
  auto leg = made::along_leg({{0, 0}, {0, 1000}}, Kind::path);
  const auto weighed = [&](const walking::Ground& on, const walking::Leg& asked) {
    const Judge judge(on, party(), {}, 0.5);
    Drift carried = judge.at_fix();
    return std::pair{judge.weigh(asked, carried),
                     judge.guides().noticed(Kind::gate)};
  };
  const auto alone = weighed(g, leg).first;
  EXPECT_TRUE(alone.decoys.empty());
  made::add_point(g, Kind::gate, {0, 900});
  const auto [model, noticed] = weighed(g, leg);
  // practised: 4 % of the leg and 3 % of stride, 0.3 m a root metre: sqrt(900^2 0.0025 + 0.09 900) =
  // 45.89 m; 50 m are 1.0896 sigmas, beyond which lie 0.1379.
  const double expected = noticed * 0.1379;
  EXPECT_NEAR(model.decoy_probability, expected, 0.002);
  EXPECT_NEAR(model.certainty, alone.certainty * (1 - expected), 0.002);
  EXPECT_NE(judged(g, leg, party()).confusable, "");
  // ticked off on the card it is expected where it is
  auto told = leg;
  told.ticks.push_back({"gate", Kind::gate, mapdata::Side::none, 900, 0, {0, 900}});
  EXPECT_EQ(weighed(g, told).first.decoy_probability, 0);
  // far before the end, beyond six sigmas of the count, nobody is taken in
  auto far = made::ground();
  made::add_line(far, Kind::path, path);
  made::add_point(far, Kind::gate, {0, 1000});
  made::add_point(far, Kind::gate, {0, 600});
  EXPECT_LT(weighed(far, leg).first.decoy_probability, 1e-6);
}

// A leg that ends in the middle of its line: to go on along it is to pass the end by, no branch. A
// like path that comes in there from aside is not met on the leg either.
TEST(Judge, TheLineFollowedIsNoBranchPastTheLegsEnds) {
  auto g = made::ground();
  std::vector<GridPoint> line;
  for (int k = 0; k <= 200; ++k) line.push_back({0, 10.0 * k});
  made::add_line(g, Kind::path, line);
  made::add_point(g, Kind::gate, {0, 900});
  auto leg = made::along_leg({line.begin() + 30, line.begin() + 91}, Kind::path);
  EXPECT_NEAR(judged(g, leg, party()).certainty, std::pow(0.97, 600.0 / 4000), 1e-3);
  made::add_line(g, Kind::path, {{300, 1200}, {0, 900}});
  EXPECT_NEAR(judged(g, leg, party()).certainty, std::pow(0.97, 600.0 / 4000), 1e-3);
}

// A cone of one in ten leads up to its top from everywhere; on a plain nothing does.
TEST(Judge, GroundThatLeadsUpToATop) {
  terrain::Elevation cone(terrain::Frame{-500, 500, 10, 100, 100});
  for (int r = 0; r < 100; ++r)
    for (int c = 0; c < 100; ++c) {
      const auto p = cone.frame().centre(r, c);
      cone[r, c] = static_cast<float>(500 - 0.1 * std::min(std::hypot(p.east_m, p.north_m), 100.0));
    }
  EXPECT_NEAR(landmarks::leads_up_within(cone, {0, 0}), 100, 11);
  EXPECT_EQ(landmarks::leads_up_within(terrain::Elevation(cone.frame(), 7.0F), {0, 0}), 0);
}

// The better side of the line lies behind a lake: then the other one is taken.
TEST(Judge, DoesNotAimOverForbiddenGround) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 760}, {1500, 840}});
  const auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto p = party();
  const Judge open(g, p, {}, 0);
  Drift a = open.at_fix();
  const auto free = judged(open, leg, a);
  ASSERT_TRUE(free.after);
  Forbidden lake(g.elevation.frame(), 0);
  const double side = free.needle->aim.east_m > 0 ? 1 : -1;
  for (int r = 0; r < 200; ++r)
    for (int c = 0; c < 200; ++c) {
      const auto at = lake.frame().centre(r, c);
      if (at.east_m * side > 45 && at.east_m * side < 400 && at.north_m > 400 && at.north_m < 740)
        lake[r, c] = 1;
    }
  const Judge with_lake(g, p, lake, 0);
  Drift b = with_lake.at_fix();
  const auto barred = judged(with_lake, leg, b);
  ASSERT_TRUE(barred.after);
  EXPECT_LT(barred.needle->aim.east_m * side, 0);
}

TEST(Judge, AStopAheadIsWhereToGo) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  leg.stop = walking::Stop{"Fallow Beck", Kind::stream, 200, 3, {{-500, 1000}, {500, 1000}}};
  const auto s = judged(g, leg, party());
  const auto width = std::to_string(10 * static_cast<int>(std::ceil(2 * s.cross_sigma_m / 10)));
  EXPECT_EQ(s.if_lost,
            "At Fallow Beck you are 200 m too far: turn round; the end lies so far back, within " +
                width + " m to either hand.");
  EXPECT_NEAR(s.recovery_minutes, 10 + 400 * 0.015, 1e-9);
  // The edge of a cliff stops a party too, but nobody is sent to it.
  leg.stop = walking::Stop{"Brennow Edge", Kind::cliff, 200, 3, {{-500, 1000}, {500, 1000}}};
  EXPECT_EQ(judged(g, leg, party()).if_lost,
            "Do not go on past your count: Brennow Edge lies 200 m beyond. Not at the end? Turn round "
            "and go back to the start.");
}

// Back to what is 1400 m off, or to a turn that nothing marks, nobody goes: the end is looked for on the way
// back. What stops the party is on the card, so nothing says that nothing does.
TEST(Judge, NobodyGoesBackToWhatIsFarOrCannotBeFound) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 1400});
  const auto far = judged(g, made::bearing_leg({0, 0}, {0, 1400}), party()).if_lost;
  EXPECT_EQ(far.find("go back to"), std::string::npos) << far;
  EXPECT_NE(far.find("look for the end as you go back, for "), std::string::npos) << far;
  EXPECT_NE(far.find(" double paces)"), std::string::npos) << far;
  const auto p = party();
  const Judge judge(g, made::knowing(g, p), {}, 0);
  Drift carried = judge.at_fix();
  carried.add_leg(units::GridBearing::degrees(90), 300);
  const auto near = made::bearing_leg({0, 1000}, {0, 1400});
  const auto turned = Teller(judge).judged(near, judge.weigh(near, carried)).if_lost;
  EXPECT_EQ(turned.find("go back to"), std::string::npos) << turned;
  EXPECT_NE(judged(g, near, party()).if_lost.find("go back to the start, 400 m"), std::string::npos);
  auto behind = made::bearing_leg({0, 1000}, {0, 1400});
  behind.stop = walking::Stop{"Fallow Beck", Kind::stream, 520, 3, {{-500, 1920}, {500, 1920}}};
  EXPECT_EQ(judged(g, behind, party()).if_lost.find("Nothing will stop you"), std::string::npos);
}

// Past where it met the line a party goes no farther than it looked past the end; and along a line that
// fewer than three in four know for what it is nobody is told to be at the end.
TEST(Judge, EachSearchHasASecondBoundAndAHand) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 760}, {1500, 840}});
  const auto s = judged(g, made::bearing_leg({0, 0}, {0, 800}), party());
  ASSERT_TRUE(s.after);
  EXPECT_NE(s.if_lost.find("past where you met it, at most "), std::string::npos) << s.if_lost;
}

// Along sigma at 800 m in this party's count, by hand of the judge's own figure; whatever it is,
// two of them before the edge the party must turn, and a cliff 60 m beyond leaves no room at all.
TEST(Judge, HowFarPastTheCountIsBoundedByWhatLiesBeyond) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto free = judged(g, leg, party());
  EXPECT_NE(free.if_lost.find("Nothing will stop you"), std::string::npos) << free.if_lost;
  leg.dangers = {{"Brennow Edge, cliff, 99 m beyond the end", mapdata::Side::none,
                  3 * free.along_sigma_m}};
  const auto near = judged(g, leg, party());
  // how far it lies is said once
  EXPECT_NE(near.if_lost.find("and Brennow Edge, cliff lies"), std::string::npos) << near.if_lost;
  EXPECT_EQ(near.if_lost.find("beyond the end"), std::string::npos) << near.if_lost;
  const auto at = near.if_lost.find("at most ");
  ASSERT_NE(at, std::string::npos) << near.if_lost;
  EXPECT_LE(std::atof(near.if_lost.c_str() + at + 8), free.along_sigma_m) << near.if_lost;
  leg.dangers[0].distance_m = 2 * free.along_sigma_m;
  EXPECT_NE(judged(g, leg, party()).if_lost.find("Do not go past your count: Brennow Edge, cliff lies"),
            std::string::npos);
  // beside the way it bounds nothing
  leg.dangers[0].side = mapdata::Side::left;
  EXPECT_EQ(judged(g, leg, party()).if_lost, free.if_lost);
}

// Feet where the trip asks for feet: 200 m are 656 ft, said as 660; the count of the leg along a path goes 20 m
// on, which are 65.6 ft, up to the next ten: 70.
TEST(Judge, LengthsInWordsAreInTheTripsUnits) {
  const auto p = party();
  const auto told = [&](const walking::Ground& g, const walking::Leg& leg) {
    const Judge judge(g, made::knowing(g, p), {}, 0);
    const Teller teller(judge, {units::Language::english, {false, true}});
    Drift carried = judge.at_fix();
    return teller.judged(leg, judge.weigh(leg, carried)).if_lost;
  };
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  leg.stop = walking::Stop{"Fallow Beck", Kind::stream, 200, 3, {{-500, 1000}, {500, 1000}}};
  EXPECT_NE(told(g, leg).find("At Fallow Beck you are 660 ft too far"), std::string::npos);
  auto path = made::ground();
  made::add_line(path, Kind::path, {{0, 0}, {0, 1500}});
  auto along = made::along_leg({{0, 0}, {0, 900}}, Kind::path);
  along.ticks.push_back({"wall crosses", Kind::wall, mapdata::Side::none, 700, 0, {}});
  EXPECT_EQ(told(path, along),
            "Not at the end by 70 ft past your count (13 double paces)? Turn back along the path to “wall crosses”, 660 "
            "ft, and count again.");
}

RC_GTEST_PROP(Judge, MoreErrorIsNeverSurer, ()) {
  auto g = made::ground();
  made::add_point(g, *rc::gen::element(Kind::hut, Kind::cairn, Kind::gate), {0, 900});
  if (*rc::gen::arbitrary<bool>())
    made::add_line(g, Kind::wall,
                   {{-900, 800.0 + *rc::gen::inRange(0, 100)}, {0, 900}, {1200, 950}});
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
  RC_ASSERT(sa.after.has_value() == sb.after.has_value());
  if (sa.after) {
    RC_ASSERT(sa.after->aimed_to != sb.after->aimed_to);
    RC_ASSERT(std::abs(sa.needle->aim.east_m + sb.needle->aim.east_m) < 2);
  }
}

RC_GTEST_PROP(Judge, CuttingAStraightLegInTwoChangesNothing, ()) {
  auto g = made::ground();
  made::add_point(g, Kind::hut, {0, 900});
  const double cut = *rc::gen::inRange(150, 750);
  const auto p = party();
  const Judge judge(g, made::knowing(g, p), {}, 1);
  walking::Way one, two;
  one.legs = {made::bearing_leg({0, 0}, {0, 900})};
  two.legs = {made::bearing_leg({0, 0}, {0, cut}), made::bearing_leg({0, cut}, {0, 900})};
  const auto a = Teller(judge).judged(one), b = Teller(judge).judged(two);
  // the second part gives up 2 sigma past its own, shorter count: the along error's scale beyond
  // differs
  RC_ASSERT(std::abs(a.certainty - b.certainty) < 2e-2);
  RC_ASSERT(std::abs(a.legs[0].judged.cross_sigma_m - b.legs[1].judged.cross_sigma_m) < 1e-9);
  RC_ASSERT(std::abs(a.legs[0].judged.along_sigma_m - b.legs[1].judged.along_sigma_m) < 1e-9);
}
}  // namespace judge_test
