// No drill sends a party onto ground to keep off: what the words allow is measured against where
// the ground was put.
#include <cstdlib>

#include <gtest/gtest.h>

#include "lodeway/reckoning/judge/teller.hpp"
#include "knowing.hpp"
#include "made_ground.hpp"

namespace drill_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using made::Kind;

walking::Party party() {
  walking::Party p;
  p.errors = {2, 3, 100, 0.05, 1e-9, 1e-9};
  return p;
}

/// Ground to keep off in a box of the grid.
Forbidden box(const walking::Ground& g, double west, double east, double south, double north) {
  Forbidden out(g.elevation.frame(), 0);
  for (int r = 0; r < out.rows(); ++r) {
    for (int c = 0; c < out.cols(); ++c) {
      const auto p = out.frame().centre(r, c);
      if (p.east_m > west && p.east_m < east && p.north_m > south && p.north_m < north)
        out[r, c] = 1;
    }
  }
  return out;
}

std::string told(const walking::Ground& g, const walking::Leg& leg, const Forbidden& keep_off,
                 units::Language language = units::Language::english) {
  const auto p = party();
  const Judge judge(g, made::knowing(g, p), keep_off, 0);
  Drift carried = judge.at_fix();
  return Teller(judge, language).judged(leg, judge.weigh(leg, carried)).if_lost;
}

/// The metres after a word of the sentence; below 0 where it is not there.
double after(const std::string& text, const std::string& word) {
  const auto at = text.find(word);
  return at == std::string::npos ? -1 : std::atof(text.c_str() + at + word.size());
}
/// Along a line, what stands before the metres past the count.
const char* const turn_round = "Nothing will stop you: ";
bool says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// A band across the way at any distance beyond the end: past the count the party goes at most as
// far as two sigmas (80 m at 800 m of this party) before it, or not at all.
TEST(Drill, PastTheCountNobodyIsSentIntoABand) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  const auto leg = made::bearing_leg({0, 0}, {0, 800});
  EXPECT_TRUE(says(told(g, leg, {}), "Nothing will stop you: "));
  int bounded = 0;
  for (const double beyond : {40.0, 90.0, 110.0, 130.0, 150.0}) {
    const auto text = told(g, leg, box(g, -600, 600, 800 + beyond, 800 + beyond + 60));
    if (says(text, "Do not go past your count: ground to keep off lies ")) {
      EXPECT_LT(beyond, 125);
      continue;
    }
    const double most = after(text, "at most ");
    ASSERT_GT(most, 0) << text;
    EXPECT_LE(most, beyond - 60) << text;
    ++bounded;
  }
  EXPECT_GE(bounded, 1);
  // Beside the way, beyond one sigma of it, it bounds nothing.
  EXPECT_TRUE(says(told(g, leg, box(g, 150, 600, 700, 1100)), "Nothing will stop you: "));
}

// What would stop the party lies behind the band.
TEST(Drill, NobodyGoesOnThroughABandToWhatStops) {
  auto g = made::ground();
  made::add_point(g, Kind::cairn, {0, 800});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  leg.stop = walking::Stop{"Fallow Beck", Kind::stream, 300, 3, {{-500, 1100}, {500, 1100}}};
  EXPECT_TRUE(says(told(g, leg, {}), "At Fallow Beck you are 300 m too far"));
  const auto text = told(g, leg, box(g, -600, 600, 900, 1000));
  EXPECT_FALSE(says(text, "Fallow Beck")) << text;
  EXPECT_TRUE(says(text, "ground to keep off lies")) << text;
  const auto german = told(g, leg, box(g, -600, 600, 900, 1000), units::Language::german);
  EXPECT_FALSE(says(german, "Fallow Beck")) << german;
  EXPECT_TRUE(says(german, "liegt zu meidendes Gelände")) << german;
}

// The path goes on past the leg's end, into the band; 90 m would be allowed without it.
TEST(Drill, AlongAPathTheCountIsBoundedToo) {
  auto g = made::ground();
  made::add_line(g, Kind::path, {{0, 0}, {0, 900}, {600, 1500}});
  const auto leg = made::along_leg({{0, 0}, {0, 900}}, Kind::path);
  EXPECT_EQ(after(told(g, leg, {}), turn_round), 90);
  // On the path's own bend: from (20, 920) on, 28 m beyond.
  const auto text = told(g, leg, box(g, 10, 400, 910, 1400));
  EXPECT_TRUE(says(text, "Do not go past your count: ground to keep off lies")) << text;
  EXPECT_TRUE(says(text, "Look for the end on the last ")) << text;
  // Straight on, where the path does not go, it bounds nothing.
  EXPECT_EQ(after(told(g, leg, box(g, -100, 20, 960, 1400)), turn_round), 90);
}

// A wall met and followed: on it, past the gate and away from the aim, the ground falls away. Who
// met it two sigmas nearer than aimed is as far past the gate when it has gone as far as it was
// aimed off.
TEST(Drill, AlongALineMetTheSearchEndsBeforeTheEdge) {
  auto g = made::ground();
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 760}, {1500, 840}});
  const auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto p = party();
  const Judge judge(g, made::knowing(g, p), {}, 0);
  Drift carried = judge.at_fix();
  const auto model = judge.weigh(leg, carried);
  const auto free = Teller(judge).judged(leg, model);
  ASSERT_TRUE(free.after);
  const double search = after(free.if_lost, "after ");
  const auto& end = std::get<AtLine>(model.end);
  const double aimed = std::abs(end.offset_m), off = 2 * end.line_sigma_m;
  const bool aim_east = model.aim.east_m > 0;
  const auto past_gate = [&](double beyond) {
    return aim_east ? box(g, -beyond - 300, -beyond, 700, 900)
                    : box(g, beyond, beyond + 300, 700, 900);
  };
  const double roomy = off + 50, tight = off - 10;
  ASSERT_GT(tight, 30);
  const auto text = told(g, leg, past_gate(roomy));
  ASSERT_TRUE(says(text, "along the wall")) << text;
  EXPECT_LT(after(text, "after "), search);
  EXPECT_GE(after(text, "after "), aimed);
  EXPECT_LE(after(text, "after ") - aimed + off, roomy) << text;
  EXPECT_TRUE(says(text, "ground to keep off lies beyond")) << text;
  // Nearer there is no search, and it is said how far the edge is and why: to who is aimed off all
  // the same.
  const auto as_aimed = [&](double beyond, units::Language language = units::Language::english) {
    return Teller(Judge(g, made::knowing(g, p), past_gate(beyond), 0), language).judged(leg, model).if_lost;
  };
  const auto none = as_aimed(tight);
  EXPECT_LT(after(none, "after "), aimed) << none;
  EXPECT_LE(after(none, "after ") - aimed + off, tight) << none;
  EXPECT_TRUE(says(none, "no farther. Ground to keep off lies ")) << none;
  EXPECT_FALSE(says(none, "other way")) << none;
  // Hard by the end only who sees it goes to it.
  const auto near = as_aimed(12);
  EXPECT_TRUE(says(near, "Do not follow the wall unless you see the end")) << near;
  EXPECT_TRUE(says(as_aimed(12, units::Language::german), "nur folgen, wenn ihr "));
}

// Who may not follow the line keeps the leg only where the mark is in sight from where it is met.
TEST(Drill, WhoMayNotFollowTheLineIsNotCountedAtItsEnd) {
  auto g = made::ground();
  g.kinds[Kind::gate] = made::traits(false, false, 70, 1);
  made::add_point(g, Kind::gate, {0, 800});
  made::add_line(g, Kind::wall, {{-1500, 800}, {1500, 800}});
  const auto leg = made::bearing_leg({0, -1200}, {0, 800});
  const auto p = made::knowing(g, party());
  // both ways along the wall, from 30 m beside the gate
  auto keep_off = box(g, -900, -30, 700, 900);
  const auto other = box(g, 30, 900, 700, 900);
  for (int r = 0; r < keep_off.rows(); ++r)
    for (int c = 0; c < keep_off.cols(); ++c)
      if (other[r, c] != 0) keep_off[r, c] = 1;
  const Judge free(g, p, {}, 0), bounded(g, p, keep_off, 0);
  Drift a = free.at_fix(), b = bounded.at_fix();
  const auto with_room = free.weigh(leg, a), without = bounded.weigh(leg, b);
  const auto* end = std::get_if<AtLine>(&with_room.end);
  ASSERT_TRUE(end != nullptr && end->mark);
  EXPECT_NE(end->offset_m, 0);
  EXPECT_NEAR(end->follows_m, search_m(*end, free.habits()), 1e-9);
  EXPECT_GT(with_room.certainty, 0.9);
  // 2000 m, 2 degrees a leg and 3 each 100 m: sqrt(69.8^2 + 23.4^2) = 73.6 m; within 70 m of the gate
  // come 0.658, whether the wall is met or the gate seen on the way.
  EXPECT_NEAR(without.spread.cross_sigma_m, 73.8, 0.5);
  EXPECT_NEAR(without.certainty, 0.658 * on_needle(without.end)->set_right, 0.04);
}

// Straight at a place on a wall that nothing marks: who meets it two sigmas off and looks along it
// as far as is said comes to no edge; where there is no room for that nobody looks.
TEST(Drill, TheLookAlongALineThatStopsEndsBeforeTheEdge) {
  auto g = made::ground();
  made::add_line(g, Kind::wall, {{-1500, 800}, {1500, 800}});
  auto leg = made::bearing_leg({0, 0}, {0, 800});
  leg.stop = walking::Stop{"Long Wall", Kind::wall, 0, 2, {{-1500, 800}, {1500, 800}}};
  const auto p = party();
  const Judge judge(g, made::knowing(g, p), {}, 0);
  Drift carried = judge.at_fix();
  const auto model = judge.weigh(leg, carried);
  const auto& end = std::get<AtLine>(model.end);
  ASSERT_EQ(end.offset_m, 0);
  const double off = 2 * end.line_sigma_m, look = after(told(g, leg, {}), "up to ");
  ASSERT_GT(look, 30);
  const double edge = off + look;
  const auto text = told(g, leg, box(g, edge, edge + 300, 700, 900));
  EXPECT_GT(after(text, "at most "), 0) << text;
  EXPECT_LE(after(text, "at most ") + off, edge) << text;
  const auto none = told(g, leg, box(g, off, off + 300, 700, 900));
  EXPECT_TRUE(says(none, "Do not look along it: ground to keep off lies there")) << none;
}

// A turn that nothing marks: nobody looks round for it farther than the ground is clear.
TEST(Drill, RoundAnUnmarkedTurnThereIsRoomOrNoSearch) {
  auto g = made::ground();
  const auto p = party();
  const auto leg = made::bearing_leg({0, 0}, {0, 800});
  const auto last = [&](const Forbidden& keep_off) {
    const Judge judge(g, made::knowing(g, p), keep_off, 0);
    return Teller(judge).judged({"", {leg}}).legs.front().judged.if_lost;
  };
  const auto free = last({});
  ASSERT_TRUE(says(free, "look round for it within ")) << free;
  const auto near = last(box(g, 40, 400, 700, 900));
  EXPECT_LE(after(near, "within "), 40) << near;
  EXPECT_TRUE(says(last(box(g, 15, 400, 700, 900)), "do not look round for it"));
}

}  // namespace drill_test
