#include "lodeway/route/choose/judge_ways.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "lodeway/walking/course.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;
using walking::Leg;
using walking::LegKind;

Leg leg(const walking::Ground& g, const walking::Party& party, LegKind kind,
        std::vector<earth::GridPoint> line) {
  Leg out;
  out.course = {kind, "here", "there", {}, std::move(line), 1};
  if (kind == LegKind::along) out.course.followed = {Kind::wall, "wall"};
  out.figures = walking::figures_of(out.course, g, party);
  return out;
}

/// A wall from fold to fold, a turn in the open, a hut beyond: ways that share legs, some of them
/// come to from a turn by one and from a fold by another.
struct Folds {
  walking::Ground ground = made::ground();
  walking::Party party;
  std::vector<walking::Way> ways;
  Folds() {
    made::line(ground, Kind::wall, {at(400, 400), at(900, 500), at(1500, 400)});
    for (const auto fold : {at(400, 400), at(1500, 400)})
      ground.map.points.push_back({{Kind::sheepfold, "Fold"}, fold, 0});
    ground.map.points.push_back({{Kind::hut, "Hut"}, at(1500, 1500), 0});
    made::box(ground, Kind::lake, at(1000, 900), at(1200, 1100));
    const auto wall = leg(ground, party, LegKind::along, ground.map.lines[0].points);
    const auto straight = leg(ground, party, LegKind::bearing, {at(1500, 400), at(1500, 1500)});
    const auto to_turn = leg(ground, party, LegKind::bearing, {at(400, 400), at(700, 1000)});
    const auto on = leg(ground, party, LegKind::bearing, {at(700, 1000), at(1500, 1500)});
    const auto to_fold = leg(ground, party, LegKind::bearing, {at(700, 1000), at(1500, 400)});
    const auto into_the_open =
        leg(ground, party, LegKind::bearing, {at(1500, 1500), at(700, 1000)});
    ways = {{"a", {wall, straight}},
            {"b", {to_turn, on}},
            {"c", {to_turn, to_fold, straight}},
            {"d", {on}},
            {"e", {wall, straight, into_the_open}},
            {"f", {wall, straight, into_the_open, on}},
            {"g", {}}};
  }
};

/// Counts the blocks that were run, first to last or last to first.
class Counting final : public numeric::Parallel {
 public:
  explicit Counting(bool backwards) : backwards_(backwards) {}
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override {
    for (std::size_t b = 0; b < blocks; ++b) run(backwards_ ? blocks - 1 - b : b);
    count += blocks;
  }
  std::size_t count = 0;

 private:
  bool backwards_;
};

// The law of `judged`: together as one by one, to the last bit.
TEST(JudgeWays, TogetherAsOneByOne) {
  const Folds f;
  reckoning::Forbidden barred(f.ground.elevation.frame(), 0);
  for (int r = 90; r < 110; ++r) {
    for (int c = 100; c < 120; ++c) barred[r, c] = 1;
  }
  const reckoning::Judge judge(f.ground, f.party, barred, 0.4);
  for (const bool backwards : {false, true}) {
    Counting parallel(backwards);
    const auto known = judged(reckoning::Teller(judge), f.ways, parallel);
    ASSERT_TRUE(known);
    const auto& all = *known;
    ASSERT_EQ(all.size(), f.ways.size());
    for (std::size_t w = 0; w < all.size(); ++w) {
      SCOPED_TRACE(f.ways[w].name);
      const auto one = judged(reckoning::Teller(judge), f.ways[w]);
      EXPECT_EQ(all[w].way.certainty, one.way.certainty);
      EXPECT_EQ(all[w].hazard, one.hazard);
      EXPECT_EQ(all[w].minutes, one.minutes);
      EXPECT_EQ(all[w].minutes_slow, one.minutes_slow);
      EXPECT_EQ(all[w].expected_min, one.expected_min);
      ASSERT_EQ(all[w].way.legs.size(), one.way.legs.size());
      for (std::size_t i = 0; i < one.way.legs.size(); ++i) {
        const auto &a = all[w].way.legs[i].judged, &b = one.way.legs[i].judged;
        EXPECT_EQ(a.certainty, b.certainty);
        EXPECT_EQ(a.cross_sigma_m, b.cross_sigma_m);
        EXPECT_EQ(a.at_end, b.at_end);
        EXPECT_EQ(a.if_lost, b.if_lost);
      }
    }
    // wall, straight from the wall's end and from the fold, to_turn, on after the turn, from the
    // start and from the other turn, to_fold, into_the_open: nine of 15 legs
    EXPECT_EQ(parallel.count, 9U);
  }
  const auto turn = judged(reckoning::Teller(judge), f.ways[1]);
  EXPECT_FALSE(turn.way.legs[0].judged.fix_at_end);  // else the error carried is put to no test
  EXPECT_GT(judged(reckoning::Teller(judge), f.ways[3]).way.certainty,
            turn.way.legs[1].judged.certainty);
}

// What is asked of `comes_alike`: a leg along a line has one answer, whatever is carried to it.
TEST(JudgeWays, AlongALineTheErrorCountsNot) {
  const Folds f;
  const reckoning::Judge judge(f.ground, f.party,
                               reckoning::Forbidden(f.ground.elevation.frame(), 0), 0.4);
  auto far_off = judge.at_fix(), sure = judge.at_fix();
  far_off.add_leg(units::GridBearing::degrees(57), 900);
  const auto& wall = f.ways[0].legs[0];
  const auto one = judge.weigh(wall, far_off), other = judge.weigh(wall, sure);
  EXPECT_EQ(one.certainty, other.certainty);
  const reckoning::Teller teller(judge);
  EXPECT_EQ(teller.judged(wall, one).if_lost, teller.judged(wall, other).if_lost);
  EXPECT_TRUE(far_off == sure);
}

}  // namespace
}  // namespace lodeway::route
