/// Laws that hold of every walker, on a made ground: nobody jumps, nobody runs, the same seed walks
/// the same, and who has no errors comes where it should.
#include <gtest/gtest.h>

#include <cmath>
#include <thread>

#include "lodeway/walkers/detail/ready.hpp"
#include "scene.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::walkers;
using made::Scene;

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

/// Stops after the first blocks.
class Stopped final : public numeric::Parallel {
 public:
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override {
    for (std::size_t b = 0; b < std::min<std::size_t>(blocks, 3); ++b) run(b);
  }
};

void nobody_jumps(const Walked& walked) {
  std::size_t moments = 0;
  for (std::size_t t = 0; t < walked.tracks.size(); ++t) {
    const auto& m = walked.tracks[t].moments;
    ASSERT_FALSE(m.empty());
    for (std::size_t k = 1; k < m.size(); ++k) {
      const double s = 60 * (m[k].minutes - m[k - 1].minutes);
      const double far = earth::grid_distance_m(m[k - 1].at, m[k].at);
      ASSERT_GE(s, 0) << "walker " << t + 1;
      ASSERT_LE(far, fastest_m_s * s + 1e-6) << "walker " << t + 1 << " moment " << k;
      ASSERT_LE(far, step_m * 3) << "walker " << t + 1 << " moment " << k;
      ++moments;
    }
  }
  EXPECT_GT(moments, 20 * walked.tracks.size());
}

TEST(Walkers, NobodyJumpsAndNobodyRuns) {
  for (const auto skill : {walking::Skill::novice, walking::Skill::practised}) {
    for (const auto air : {mapdata::Visibility::clear, mapdata::Visibility::cloud}) {
      Scene s(skill, air);
      auto request = s.request(300);
      request.tracks = 300;
      const auto walked = s.walk(request);
      ASSERT_EQ(walked.tracks.size(), 300U);
      nobody_jumps(walked);
    }
  }
}

void same(const Walked& a, const Walked& b) {
  EXPECT_EQ(a.kept_all, b.kept_all);
  EXPECT_EQ(a.ended, b.ended);
  EXPECT_EQ(a.lost_min_90, b.lost_min_90);
  EXPECT_EQ(a.end_50, b.end_50);
  EXPECT_EQ(a.trodden, b.trodden);
  ASSERT_EQ(a.stands.size(), b.stands.size());
  for (std::size_t k = 0; k < a.stands.size(); ++k) {
    ASSERT_EQ(a.stands[k].size(), b.stands[k].size());
    for (std::size_t i = 0; i < a.stands[k].size(); ++i) {
      ASSERT_EQ(a.stands[k][i].at, b.stands[k][i].at);
      ASSERT_EQ(a.stands[k][i].believed, b.stands[k][i].believed);
      ASSERT_EQ(a.stands[k][i].state, b.stands[k][i].state);
    }
  }
}

TEST(Walkers, SameSeedSameBytesOnOneOrTwoThreads) {
  Scene s(walking::Skill::novice, mapdata::Visibility::cloud);
  const auto request = s.request(1001);
  numeric::Serial serial;
  TwoThreads two;
  const auto a = *walk(s.world, s.card, request, serial), b = *walk(s.world, s.card, request, two);
  same(a, b);
  auto other = request;
  other.seed = 2;
  EXPECT_NE(walk(s.world, s.card, other, serial)->stands[0][0].at, a.stands[0][0].at);
}

TEST(Walkers, TracksChangeNothing) {
  Scene s(walking::Skill::practised, mapdata::Visibility::cloud);
  auto request = s.request(300);
  const auto a = s.walk(request);
  request.tracks = 100;
  same(a, s.walk(request));
}

// Each leg that went wrong stands in the party's track once, by the cause that the leg counts, at a
// place that the party came through.
TEST(Walkers, ATrackTellsWhereItWentWrong) {
  Scene s(walking::Skill::novice, mapdata::Visibility::cloud);
  auto request = s.request(400);
  request.tracks = 400;
  const auto a = s.walk(request);
  ASSERT_EQ(a.tracks.size(), 400U);
  std::vector<std::array<std::size_t, wrong_count>> counted(a.legs.size());
  std::size_t clean = 0, slips = 0;
  for (const auto& track : a.tracks) {
    clean += track.slips.empty() ? 1 : 0;
    int before = -1;
    for (const auto& slip : track.slips) {
      ++slips;
      EXPECT_GT(slip.leg, before);
      before = slip.leg;
      ++counted[static_cast<std::size_t>(slip.leg)][static_cast<std::size_t>(slip.wrong)];
      ASSERT_GT(slip.moment, 0U);
      const auto& last = track.moments[slip.moment - 1];
      // A step is at most some tens of metres; between two moments it is straight.
      const auto next = track.moments[std::min(slip.moment, track.moments.size() - 1)];
      EXPECT_LE(earth::grid_distance_m(last.at, slip.at) + earth::grid_distance_m(slip.at, next.at),
                earth::grid_distance_m(last.at, next.at) + 60);
    }
  }
  EXPECT_GT(slips, 0U);
  EXPECT_GT(clean, 0U);
  for (std::size_t l = 0; l < a.legs.size(); ++l) EXPECT_EQ(counted[l], a.legs[l].wrong) << l;
}

TEST(Walkers, StoppedTheyAnswerForThoseWhoWalked) {
  Scene s(walking::Skill::practised, mapdata::Visibility::clear);
  auto request = s.request(5000);
  Stopped stopped;
  const auto a = *walk(s.world, s.card, request, stopped);
  EXPECT_EQ(a.asked, 5000U);
  EXPECT_GT(a.walked, 0U);
  EXPECT_LT(a.walked, 1000U);
  std::size_t ended = 0;
  for (const auto n : a.ended) ended += n;
  EXPECT_EQ(ended, a.walked);
  EXPECT_EQ(a.stands[0].size(), a.walked);
}

TEST(Walkers, TheSumsAddUp) {
  Scene s(walking::Skill::novice, mapdata::Visibility::cloud);
  const auto a = s.walk(s.request(3000));
  std::size_t ended = 0;
  for (const auto n : a.ended) ended += n;
  EXPECT_EQ(ended, 3000U);
  EXPECT_EQ(a.legs[0].set_out, 3000U);
  for (std::size_t l = 0; l < a.legs.size(); ++l) {
    const auto& leg = a.legs[l];
    EXPECT_LE(leg.kept, leg.in_the_end);
    EXPECT_LE(leg.in_the_end + leg.elsewhere, leg.set_out);
    EXPECT_LE(leg.kept_on_course, leg.on_course);
    if (l > 0) {
      EXPECT_LE(leg.set_out, a.legs[l - 1].in_the_end + a.legs[l - 1].elsewhere);
    }
  }
  EXPECT_LE(a.kept_all, a.ended[static_cast<std::size_t>(State::through)]);
  EXPECT_GT(a.lost, 0U);
  EXPECT_LE(a.unaware_min_50, a.lost_min_50);
}

// Whoever neither errs nor overlooks anything comes through, in the time that the model of walking
// gives: the pace at each slope summed over the way.
TEST(Walkers, WithoutErrorsAllComeThrough) {
  Scene s(walking::Skill::practised, mapdata::Visibility::clear, /*errs=*/false);
  auto request = s.request(400);
  request.manner.know_log_sd = 0;
  const auto a = s.walk(request);
  EXPECT_EQ(a.ended[static_cast<std::size_t>(State::through)], 400U);
  EXPECT_EQ(a.kept_all, 400U);
  EXPECT_EQ(a.lost, 0U);
  EXPECT_EQ(a.keep_off, 0U);
}

// A cloud makes more of them lose their way, and so does less skill.
TEST(Walkers, CloudAndLittleSkillLoseMore) {
  const auto kept = [](walking::Skill skill, mapdata::Visibility air) {
    Scene s(skill, air);
    return s.walk(s.request(2000)).kept_all;
  };
  using enum walking::Skill;
  using enum mapdata::Visibility;
  const auto best = kept(practised, clear), foggy = kept(practised, cloud),
             green = kept(novice, cloud);
  EXPECT_GT(best, foggy + 60);  // some four standard errors
  EXPECT_GT(foggy, green + 60);
}

// Everything asked of the hours: before the start all stand at it; at the end of all days all are
// where their story ended.
TEST(Walkers, WhereEverybodyIsAtAnHour) {
  Scene s(walking::Skill::practised, mapdata::Visibility::cloud);
  auto request = s.request(500);
  request.at_min = {s.card.start_min, s.card.start_min + 20, 1e5};
  const auto a = s.walk(request);
  std::array<std::size_t, state_count> last{};
  for (std::size_t i = 0; i < 500; ++i) {
    EXPECT_LT(earth::grid_distance_m(a.stands[0][i].at, {0, -600}), 40);
    // 4 km/h for 20 minutes, twice as fast at most
    EXPECT_LT(earth::grid_distance_m(a.stands[1][i].at, {0, -600}), 2700);
    ++last[static_cast<std::size_t>(a.stands[2][i].state)];
  }
  EXPECT_EQ(last, a.ended);
}

TEST(Walkers, RefusesWhatMakesNoSense) {
  Scene s(walking::Skill::practised, mapdata::Visibility::clear);
  numeric::Serial serial;
  auto request = s.request(0);
  EXPECT_EQ(walk(s.world, s.card, request, serial).error().what,
            "walkers: expected at least 1, got 0");
  request.parties = 2'000'000;
  EXPECT_EQ(walk(s.world, s.card, request, serial).error().code, FaultCode::too_large);
  request.parties = 10;
  EXPECT_FALSE(walk(s.world, Card{}, request, serial));
}

// A leg that is a small part of a long line: the line goes on past its end, and its forks are met.
TEST(Walkers, APartOfALongLine) {
  auto g = reckoning::made::ground();
  g.kinds[made::Kind::path] = reckoning::made::traits(true, true, 15, 0.97);
  reckoning::made::add_line(g, made::Kind::path, {{0, -1900}, {0, 400}, {200, 1900}});
  reckoning::made::add_point(g, made::Kind::hut, {0, 0});
  walking::Request wish;
  const walking::Cover cover(g, wish);
  const reckoning::Judge judge(g, wish.party, reckoning::forbidden_of(cover), 0.5);
  numeric::Serial serial;
  const auto planes = sight::cue_planes(g, cover, std::nullopt, serial);
  const World world(g, cover, judge, planes);
  walking::Way way;
  way.legs = {reckoning::made::along_leg({{0, -200}, {0, 0}}, made::Kind::path)};
  const Card card = card_of(judge, way);
  const auto ready = detail::make_ready(world, card);
  ASSERT_TRUE(ready.legs[0].past_end);
  EXPECT_NEAR(ready.legs[0].past_end_m, ready.legs[0].past_end->forward ? 1900 : 1913, 40);
}

}  // namespace
