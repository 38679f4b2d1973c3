#include "lodeway/route/choose/way_finder.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "lodeway/numeric/random.hpp"
#include "lodeway/route/choose/choose_ways.hpp"
#include "lodeway/route/choose/way_parts.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;
using mapdata::Visibility;
using walking::Choice;
using walking::LegKind;

/// Blocks from last to first: what the answer must not depend on.
class Backwards final : public numeric::Parallel {
 public:
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override {
    for (std::size_t b = blocks; b-- > 0;) run(b);
  }
};

walking::Request request(earth::GridPoint from, earth::GridPoint to) {
  walking::Request r;
  r.points = {{"start", from}, {"end", to}};
  return r;
}

void known(walking::Ground& g, Kind kind, std::array<double, 4> seen, std::array<double, 4> known) {
  g.kinds[kind].seen_from_m = seen;
  g.kinds[kind].recognised = known;
}

/// Open ground between a ruin and a fold 1.2 km apart; a wall joins them by a bow of 1.7 km, a road
/// by one of 3 km, which comes to the fold from behind: who goes straight has no line to aim off
/// to.
walking::Ground bows() {
  auto g = made::ground();
  g.kinds[Kind::ruin].ticks = g.kinds[Kind::road].leads = true;
  known(g, Kind::ruin, {120, 30, 10, 80}, {0.95, 0.9, 0.85, 0.6});
  known(g, Kind::sheepfold, {200, 35, 8, 80}, {0.98, 0.95, 0.9, 0.65});
  known(g, Kind::wall, {150, 35, 5, 80}, {0.97, 0.95, 0.6, 0.75});
  known(g, Kind::road, {200, 40, 20, 60}, {1.0, 0.99, 0.98, 0.9});
  g.map.points.push_back({{Kind::ruin, "Ruin"}, at(400, 1000), 0});
  g.map.points.push_back({{Kind::sheepfold, "Fold"}, at(1600, 1000), 0});
  made::line(g, Kind::wall, {at(400, 1000), at(700, 1500), at(1300, 1500), at(1600, 1000)});
  made::line(g, Kind::road,
             {at(400, 1000), at(400, 400), at(1900, 400), at(1900, 1000), at(1600, 1000)},
             "Low road");
  return g;
}

Ways ways_of(const walking::Ground& g, const walking::Request& r, const Wishes& wishes = {}) {
  const WayFinder finder(g);
  numeric::Serial serial;
  auto found = finder.find(r, wishes, serial);
  EXPECT_TRUE(found) << (found ? "" : found.error().what);
  return found ? *std::move(found) : Ways{};
}

const NamedWay& chosen(const Ways& ways, Choice choice) {
  const auto found = std::ranges::find(ways.ways, choice, &NamedWay::choice);
  return found == ways.ways.end() ? ways.ways.front() : *found;
}

// The same two places: a skilled pair on a clear day goes straight, novices in cloud follow the
// wall, by night the wall is hardly seen and the road is followed.
TEST(WayFinder, ThePartyMatters) {
  const auto g = bows();
  auto r = request(at(400, 1000), at(1600, 1000));
  r.party.skill = walking::Skill::expert;
  r.party.instrument = walking::Instrument::mirror;
  const auto clear = ways_of(g, r);
  ASSERT_FALSE(clear.ways.empty());
  const auto& straight = chosen(clear, Choice::middle);
  ASSERT_EQ(straight.way.legs.size(), 1U);
  EXPECT_EQ(straight.way.legs[0].course.kind, LegKind::bearing);
  EXPECT_GT(straight.way.certainty, 0.93);

  r.party.skill = walking::Skill::novice;
  r.party.instrument = walking::Instrument::baseplate;
  r.party.visibility = Visibility::cloud;
  const auto cloud = ways_of(g, r);
  const auto& wall = chosen(cloud, Choice::middle);
  ASSERT_EQ(wall.way.legs.size(), 1U);
  EXPECT_EQ(wall.way.legs[0].course.followed.kind, Kind::wall);
  EXPECT_GT(wall.way.certainty, 0.9);

  r.party.visibility = Visibility::night;
  const auto night = ways_of(g, r);
  const auto& road = chosen(night, Choice::sure);
  ASSERT_EQ(road.way.legs.size(), 1U);
  EXPECT_EQ(road.way.legs[0].course.followed.kind, Kind::road);
}

// Of the three the quicker is never the surer one, and the front is a front.
TEST(WayFinder, TheFrontTradesTimeForCertainty) {
  const auto g = bows();
  auto r = request(at(400, 1000), at(1600, 1000));
  r.party.visibility = Visibility::cloud;
  Wishes wishes;
  wishes.min_certainty = 0.1;
  const auto ways = ways_of(g, r, wishes);
  ASSERT_GE(ways.front.size(), 2U);
  for (std::size_t i = 1; i < ways.front.size(); ++i) {
    EXPECT_GT(ways.front[i].seconds, ways.front[i - 1].seconds);
    EXPECT_LT(ways.front[i].loss, ways.front[i - 1].loss);
  }
  for (std::size_t i = 1; i < ways.ways.size(); ++i) {
    EXPECT_GT(ways.ways[i].way.certainty, ways.ways[i - 1].way.certainty);
    EXPECT_GT(ways.ways[i].choice, ways.ways[i - 1].choice);
  }
  EXPECT_TRUE(ways.ways.size() == 3 || !ways.remarks.empty());
}

// A lake of 600 m across the straight line: gone round by a dog-leg, both legs clear of it.
TEST(WayFinder, ALakeIsGoneRound) {
  auto g = made::ground();
  known(g, Kind::sheepfold, {200, 35, 8, 80}, {0.98, 0.95, 0.9, 0.65});
  g.map.points.push_back({{Kind::sheepfold, "Low fold"}, at(400, 1000), 0});
  g.map.points.push_back({{Kind::sheepfold, "High fold"}, at(1600, 1000), 0});
  made::box(g, Kind::lake, at(900, 700), at(1100, 1200), "Mirk Tarn");
  auto r = request(at(400, 1000), at(1600, 1000));
  r.party.skill = walking::Skill::expert;
  const auto ways = ways_of(g, r);
  ASSERT_FALSE(ways.ways.empty());
  const auto& legs = ways.ways.front().way.legs;
  ASSERT_EQ(legs.size(), 2U);
  const walking::Cover cover(g, r);
  for (const auto& leg : legs) {
    EXPECT_EQ(cover.first_bar(leg.course.line.front(), leg.course.line.back()).bar, walking::Bar::none);
  }
  EXPECT_FALSE(legs[0].judged.fix_at_end);  // the error is carried through the turn
  EXPECT_GT(legs[1].judged.cross_sigma_m, 0.5 * legs[0].judged.cross_sigma_m);
}

// 1300 m of open ground in cloud to a fold seen from 35 m: no way reaches 90 in 100, and that is said
// with the leg and what it comes to.
TEST(WayFinder, ALimitThatCannotBeKeptIsSaid) {
  auto g = made::ground();
  known(g, Kind::sheepfold, {200, 35, 8, 80}, {0.98, 0.95, 0.9, 0.65});
  g.map.points.push_back({{Kind::sheepfold, "Low fold"}, at(300, 1000), 0});
  g.map.points.push_back({{Kind::sheepfold, "High fold"}, at(1600, 1000), 0});
  auto r = request(at(300, 1000), at(1600, 1000));
  r.party.visibility = Visibility::cloud;
  const auto ways = ways_of(g, r);
  ASSERT_EQ(ways.ways.size(), 1U);
  ASSERT_FALSE(ways.remarks.empty());
  EXPECT_NE(ways.remarks[0].find("No way keeps all that you ask for"), std::string::npos)
      << ways.remarks[0];
  ASSERT_EQ(ways.remarks.size(), 2U);
  EXPECT_NE(ways.remarks[1].find("No way reaches 90 in 100 on every leg"), std::string::npos);
  EXPECT_LT(ways.ways[0].way.certainty, 0.9);
  // what was asked for is said as it was asked for, though half of 1 of 100 under it is let pass
  Wishes wishes;
  wishes.min_certainty = 0.99;
  const auto strict = ways_of(g, r, wishes);
  ASSERT_EQ(strict.remarks.size(), 2U);
  EXPECT_NE(strict.remarks[1].find("No way reaches 99 in 100"), std::string::npos);
  // the one leg that there is: the remark and the card have the same figure
  const auto least = units::of_hundred(ways.ways[0].way.certainty);
  ASSERT_EQ(ways.ways[0].way.legs.size(), 1U);
  EXPECT_NE(ways.remarks[1].find("(" + least + " in 100)"), std::string::npos)
      << ways.remarks[1] << " " << ways.ways[0].way.certainty;
}

TEST(WayFinder, NotEnoughDaylightIsSaid) {
  const auto g = bows();
  Wishes wishes;
  wishes.most_minutes = 10;
  const auto ways = ways_of(g, request(at(400, 1000), at(1600, 1000)), wishes);
  ASSERT_EQ(ways.ways.size(), 1U);
  ASSERT_FALSE(ways.remarks.empty());
  ASSERT_EQ(ways.remarks.size(), 2U);
  EXPECT_NE(ways.remarks[1].find("Daylight is too short"), std::string::npos) << ways.remarks[1];
}

TEST(WayFinder, WhatTheLeaderSetsStays) {
  const auto g = bows();
  auto r = request(at(400, 1000), at(1600, 1000));
  r.points[1].stretch = walking::Stretch::along;
  const auto along = ways_of(g, r);
  ASSERT_EQ(along.ways.size(), 1U);
  EXPECT_EQ(along.ways[0].way.legs[0].course.followed.kind, Kind::wall);
  r.points[1].stretch = walking::Stretch::bearing;
  const auto bearing = ways_of(g, r);
  EXPECT_EQ(bearing.ways[0].way.legs[0].course.kind, LegKind::bearing);
  EXPECT_EQ(bearing.ways[0].way.name, "given by the leader");
}

TEST(WayFinder, SaysWhyALeg) {
  const auto g = bows();
  auto r = request(at(400, 1000), at(1600, 1000));
  r.party.skill = walking::Skill::novice;
  r.party.visibility = Visibility::cloud;
  const WayFinder finder(g);
  numeric::Serial serial;
  const auto ways = finder.find(r, {}, serial);
  ASSERT_TRUE(ways);
  const auto& way = chosen(*ways, Choice::middle);
  const auto why = finder.explain(r, {}, way.way, way.choice, 0, serial);
  ASSERT_TRUE(why);
  EXPECT_NE(why->find("The next best, along Low road to end, is "), std::string::npos) << *why;
  EXPECT_FALSE(finder.explain(r, {}, way.way, way.choice, 7, serial));
  // the leg's figure is the card's, never rounded up
  EXPECT_NE(why->find(" min; " + units::of_hundred(way.way.legs[0].judged.certainty) +
                      " in 100 keep it."),
            std::string::npos)
      << *why;
}

// A stretch of open ground that the leader sets: the same leg in metres and in feet, in both
// languages. Lengths by hand: 1200 m are 3937 ft, which from half a mile on is said as 0.7 mi.
TEST(WayFinder, SaysWhyInTheTripsUnits) {
  const auto g = bows();
  auto r = request(at(400, 1000), at(1600, 1000));
  r.points[1].stretch = walking::Stretch::bearing;
  const WayFinder finder(g);
  numeric::Serial serial;
  const auto why = [&](const units::Speech& speech) {
    Wishes wishes;
    wishes.language = speech;
    const auto ways = finder.find(r, wishes, serial);
    const auto& way = ways.value().ways[0];
    return finder.explain(r, wishes, way.way, way.choice, 0, serial).value();
  };
  constexpr units::TextStyle imperial{false, true};
  const auto metric = why(units::Language::english);
  EXPECT_NE(metric.find("Leg 1, 1200 m on a bearing to end: "), std::string::npos) << metric;
  const auto english = why({units::Language::english, imperial});
  EXPECT_NE(english.find("Leg 1, 0.7 mi on a bearing to end: "), std::string::npos) << english;
  EXPECT_EQ(english.find(" m "), std::string::npos) << english;
  const auto german = why({units::Language::german, imperial});
  EXPECT_NE(german.find("Abschnitt 1, nach Kompass 0.7 mi nach end: "), std::string::npos)
      << german;
  EXPECT_EQ(german.find(" m "), std::string::npos) << german;
}

/// A patchwork: walls and paths criss-cross, folds and cairns here and there, a lake or two.
walking::Ground patchwork(std::uint64_t seed) {
  auto g = made::ground();
  numeric::Random random(seed);
  const auto place = [&] {
    return at(100 + 1800 * random.uniform(), 100 + 1800 * random.uniform());
  };
  g.kinds[Kind::cairn].ticks = true;
  known(g, Kind::cairn, {80, 25, 8, 30}, {0.9, 0.8, 0.6, 0.4});
  for (int k = 0; k < 6; ++k) {
    const auto kind = k % 2 == 0 ? Kind::wall : Kind::path;
    made::line(g, kind, {place(), place(), place()}, k % 3 == 0 ? "Line " + std::to_string(k) : "");
  }
  for (int k = 0; k < 14; ++k)
    g.map.points.push_back({{k % 2 == 0 ? Kind::sheepfold : Kind::cairn, ""}, place(), 0});
  const auto corner = place();
  made::box(g, Kind::lake, corner, corner + earth::GridPoint{150, 200});
  return g;
}

// On eight random grounds: the same answer whatever the order of work; legs join, start and end
// where asked; a straight leg crosses nothing that bars; figures are whole.
TEST(WayFinderLaws, OnRandomGround) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const auto g = patchwork(seed);
    auto r = request(at(60, 60), at(1940, 1900));
    r.party.visibility = seed % 2 == 0 ? Visibility::cloud : Visibility::clear;
    const WayFinder finder(g);
    numeric::Serial forwards;
    Backwards backwards;
    const auto a = finder.find(r, {}, forwards), b = finder.find(r, {}, backwards);
    ASSERT_TRUE(a && b) << seed;
    ASSERT_EQ(a->ways.size(), b->ways.size()) << seed;
    EXPECT_EQ(a->remarks, b->remarks) << seed;
    const walking::Cover cover(g, r);
    for (std::size_t w = 0; w < a->ways.size(); ++w) {
      const auto &way = a->ways[w], &again = b->ways[w];
      EXPECT_EQ(way.way.certainty, again.way.certainty) << seed;
      EXPECT_EQ(way.minutes, again.minutes) << seed;
      const auto& legs = way.way.legs;
      ASSERT_FALSE(legs.empty());
      ASSERT_EQ(legs.size(), again.way.legs.size());
      EXPECT_EQ(legs.front().course.line.front(), r.points[0].at);
      EXPECT_EQ(legs.back().course.line.back(), r.points[1].at);
      for (std::size_t k = 0; k < legs.size(); ++k) {
        EXPECT_EQ(legs[k].course.line, again.way.legs[k].course.line) << seed;
        EXPECT_GT(legs[k].judged.length_m, 0) << seed;
        if (k > 0) {
          EXPECT_EQ(legs[k].course.line.front(), legs[k - 1].course.line.back()) << seed << " leg " << k;
        }
        if (legs[k].course.kind != LegKind::bearing) continue;
        EXPECT_EQ(cover.first_bar(legs[k].course.line.front(), legs[k].course.line.back()).bar,
                  walking::Bar::none)
            << seed << " leg " << k;
        EXPECT_LE(legs[k].judged.length_m, 1.001 * r.party.max_leg_m) << seed;
      }
    }
  }
}

TEST(CommonShare, OfWaysBesideEachOther) {
  reckoning::JudgedWay a, b, c;
  a.legs.resize(1);
  a.legs[0].course.line = {at(0, 0), at(1000, 0)};
  b = c = a;
  b.legs[0].course.line = {at(0, 40), at(1000, 40)};
  c.legs[0].course.line = {at(500, 0), at(500, 1000)};
  EXPECT_DOUBLE_EQ(share_off(a, b), 0);
  EXPECT_NEAR(share_off(a, c), 0.9, 0.026);  // 50 m to each side, in samples of 25 m
}

// Whoever asks at any look to stop is heard at that look, and what is told before never goes back.
TEST(WayFinder, EveryLookCanStopIt) {
  const auto g = bows();
  const auto r = request(at(400, 1000), at(1600, 1000));
  const WayFinder finder(g);
  numeric::Serial serial;
  std::size_t looks = 0, last = 0;
  ASSERT_TRUE(finder.find(r, {}, serial, [&](std::size_t done, std::size_t of) {
    EXPECT_LE(last, done);
    EXPECT_LE(done, of);
    last = done;
    return ++looks > 0;
  }));
  EXPECT_GT(looks, 12U);  // the gathering, the search, the escape routes: not only the stretches
  for (std::size_t heard = 1; heard <= looks; ++heard) {
    std::size_t asked = 0;
    const auto stopped = finder.find(
        r, {}, serial, [&](std::size_t, std::size_t) { return ++asked < heard; });
    ASSERT_FALSE(stopped) << heard;
    EXPECT_EQ(stopped.error().code, FaultCode::cancelled) << heard;
    EXPECT_LE(asked, heard + 8) << "looks after the one that stopped it";
  }
  EXPECT_TRUE(finder.find(r, {}, serial));  // nothing half done was kept
}

}  // namespace
}  // namespace lodeway::route
