/// Five legs walked once more by a small simulation that was written from docs/method/walkers.md
/// alone: its own generator, its own geometry, nothing of the walkers but their tables of chances.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "scene.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::walkers;
using made::Kind;

constexpr double degree = std::numbers::pi / 180;
constexpr int parties = 20000;

class Draws {
 public:
  double normal() { return normal_(engine_); }
  double uniform() { return uniform_(engine_); }
  bool luck(double p) { return uniform() < p; }

 private:
  std::mt19937_64 engine_{20261114};
  std::normal_distribution<double> normal_;
  std::uniform_real_distribution<double> uniform_;
};

/// The figures of the tables for a practised party with a baseplate.
struct Tables {
  double bearing, sighting, every, distance, random_m, compass, stride, know, notice, gross = 0.02;
};
/// docs/method/dead-reckoning.md and seen.md.
Tables tables(bool cloud) {
  const double aim = cloud ? 1.15 : 1, count = cloud ? 1.1 : 1;
  return {2 * aim * degree,
          3 * aim * degree,
          cloud ? 50.0 : 150.0,
          0.04 * count,
          0.3 * count,
          std::hypot(1.0, 0.5) * degree,
          0.03,
          cloud ? 0.97 : 0.98,
          cloud ? 0.95 : 0.97};
}
double own(double p, double odds) { return p * odds / (p * odds + 1 - p); }

/// Share that comes within sight and knows the end before count and margin are used up.
double to_a_mark(double length, double seen_m, double beyond, const Tables& t) {
  Draws d;
  int kept = 0;
  for (int i = 0; i < parties; ++i) {
    const double odds = std::exp(0.5 * d.normal());
    double x = 5 * d.normal(), y = 5 * d.normal();  // across, along
    double turn = t.compass * d.normal() + t.bearing * d.normal();
    const double stride = t.stride * d.normal(), scale = t.distance * d.normal();
    if (d.luck(t.gross)) turn += (d.luck(0.5) ? 1 : -1) * (20 + 40 * d.uniform()) * degree;
    const double seen = seen_m * std::max(0.3, 1 + 0.25 * d.normal());
    const bool knows = d.luck(own(t.know, odds));
    bool met = false;
    for (double counted = 0; counted < length + beyond && !met;) {
      const double angle = turn + t.sighting * d.normal();
      const double by = std::min(t.every, length);
      const double stretch = 1 + stride + scale + t.random_m * d.normal() / std::sqrt(by);
      for (double left = std::min(by, length + beyond - counted); left > 1e-6 && !met;) {
        const double m = std::min(left, 1.0);  // a metre at a time
        x += m * stretch * std::sin(angle);
        y += m * stretch * std::cos(angle);
        left -= m;
        counted += m;
        met = std::hypot(x, y - length) <= seen;
      }
    }
    kept += met && knows;
  }
  return static_cast<double>(kept) / parties;
}

/// Share of `kept` on the way's only leg by the walkers, and by the rehearsal of one leg.
double walked_kept(walking::Ground& ground, walking::Leg leg, mapdata::Visibility air) {
  walking::Request wish;
  wish.party.visibility = air;
  const walking::Cover cover(ground, wish);
  const reckoning::Judge judge(ground, wish.party, reckoning::forbidden_of(cover), 0.5);
  numeric::Serial serial;
  const auto planes = sight::cue_planes(ground, cover, std::nullopt, serial);
  const World world(ground, cover, judge, planes);
  walking::Way way;
  way.legs = {std::move(leg)};
  const Card card = card_of(judge, way);
  WalkRequest request;
  request.parties = parties;
  request.trodden = false;
  const auto walked = *walk(world, card, request, serial);
  return static_cast<double>(walked.legs[0].kept) / parties;
}

double margin(walking::Ground& ground, const walking::Leg& leg, mapdata::Visibility air) {
  walking::Request wish;
  wish.party.visibility = air;
  const walking::Cover cover(ground, wish);
  const reckoning::Judge judge(ground, wish.party, reckoning::forbidden_of(cover), 0.5);
  reckoning::Drift carried = judge.at_fix();
  return reckoning::beyond_m(judge.weigh(leg, carried).end);
}

/// Three standard errors of the difference of two shares of so many, and half a point for what the
/// page leaves out: false doubts on the right way, the last metres.
void agree(double a, double b) {
  const double p = 0.5 * (a + b);
  EXPECT_NEAR(a, b, 3 * std::sqrt(2 * p * (1 - p) / parties) + 0.005);
}

TEST(OwnSimulation, ToAHutOnAClearDay) {
  auto g = reckoning::made::ground();
  reckoning::made::add_point(g, Kind::hut, {0, 900});
  const auto leg = reckoning::made::bearing_leg({0, 0}, {0, 900});
  const auto air = mapdata::Visibility::clear;
  agree(walked_kept(g, leg, air), to_a_mark(900, 120, margin(g, leg, air), tables(false)));
}

TEST(OwnSimulation, ToAHutInCloud) {
  auto g = reckoning::made::ground();
  reckoning::made::add_point(g, Kind::hut, {0, 900});
  const auto leg = reckoning::made::bearing_leg({0, 0}, {0, 900});
  const auto air = mapdata::Visibility::cloud;
  agree(walked_kept(g, leg, air), to_a_mark(900, 60, margin(g, leg, air), tables(true)));
}

TEST(OwnSimulation, ToACairnFarOff) {
  auto g = reckoning::made::ground();
  reckoning::made::add_point(g, Kind::cairn, {0, 1400});
  const auto leg = reckoning::made::bearing_leg({0, 0}, {0, 1400});
  const auto air = mapdata::Visibility::clear;
  agree(walked_kept(g, leg, air), to_a_mark(1400, 40, margin(g, leg, air), tables(false)));
}

/// A straight path with one fork half way: its arm leaves at an angle; the end is a gate.
double along_a_path(double length, double seen_m, double turn_deg, double stay, double branch,
                    double know, double look_every, double attention) {
  Draws d;
  int kept = 0;
  const double arm = std::pow(0.5 * (1 + std::cos(turn_deg * degree)), 2);
  for (int i = 0; i < parties; ++i) {
    const double odds = std::exp(0.5 * d.normal());
    const double rate = -std::log(own(stay, odds)) / 1000;
    bool right = true;
    for (double at = 0; at < length && right; at += 25) {
      if (!d.luck(rate * 25)) continue;
      const double off = std::max(std::abs(25 * d.normal()), 8.0) * degree;
      double gone = 25;
      while (!d.luck(own(attention, odds) * 25 / look_every)) gone += 25;
      if (gone * std::sin(off) > seen_m) right = false;
    }
    const double look = own(0.96, odds);
    const double wrong = (2 * look * (1 - own(branch, odds)) + 1 - look) * arm / (arm + 1);
    kept += right && !d.luck(wrong) && d.luck(own(know, odds));
  }
  return static_cast<double>(kept) / parties;
}

walking::Ground forked(double turn_deg) {
  auto g = reckoning::made::ground();
  reckoning::made::add_line(g, Kind::path, {{0, 0}, {0, 600}, {0, 1200}, {0, 1900}});
  reckoning::made::add_line(
      g, Kind::path,
      {{0, 600}, {900 * std::sin(turn_deg * degree), 600 + 900 * std::cos(turn_deg * degree)}});
  reckoning::made::add_point(g, Kind::gate, {0, 1200});
  return g;
}

TEST(OwnSimulation, AlongAPathWithAForkInCloud) {
  auto g = forked(40);
  const auto leg = reckoning::made::along_leg({{0, 0}, {0, 600}, {0, 1200}}, Kind::path);
  agree(walked_kept(g, leg, mapdata::Visibility::cloud),
        along_a_path(1200, 8, 40, 0.98, 0.97, 0.97, 100, 0.8));
}

TEST(OwnSimulation, AlongAPathWithAForkByNight) {
  auto g = forked(25);
  const auto leg = reckoning::made::along_leg({{0, 0}, {0, 600}, {0, 1200}}, Kind::path);
  agree(walked_kept(g, leg, mapdata::Visibility::night),
        along_a_path(1200, 8, 25, 0.95, 0.94, 0.93, 100, 0.8));
}
}  // namespace
