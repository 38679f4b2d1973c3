// Legs as a leader would keep them in the head: how long they are, why they turn, what novices follow,
// and that streets lead through a settlement. By hand.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/route/legs/plan_way.hpp"
#include "lodeway/route/legs/turn_reasons.hpp"
#include "lodeway/route/legs/wades.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using earth::GridPoint;
using made::at;
using mapdata::Kind;
using walking::Stretch;
using What = walking::TurnReason::What;

/// A path in bends, 1.8 km as the crow flies, from west to east.
std::vector<GridPoint> drove(double swing_m) {
  std::vector<GridPoint> out;
  for (int k = 0; k <= 360; ++k)
    out.push_back(at(100 + 5.0 * k, 1000 + swing_m * std::sin(k * 0.07)));
  return out;
}

struct Followed {
  walking::Ground g = made::ground();
  walking::Request r;
  explicit Followed(double swing_m) {
    const auto path = drove(swing_m);
    made::line(g, Kind::path, path, "Long Drove");
    r.points = {{"start", path.front()}, {"end", path.back(), Stretch::along}};
    r.party.time_band = 0.15;  // the model as it is: 4 km/h on level ground
  }
  void wall(double east) { made::line(g, Kind::wall, {at(east, 0), at(east, 2000)}, "March Wall"); }
  void known(double chance) {
    r.party.chances.kinds = {
        {{walking::ChanceOf::know, Kind::wall, {chance, chance, chance, chance}}}};
  }
  [[nodiscard]] std::vector<walking::Leg> legs() const {
    const auto way = plan_way(g, r, units::Language::english);
    EXPECT_TRUE(way) << (way ? "" : way.error().what);
    return way ? way->legs : std::vector<walking::Leg>{};
  }
};

double minutes(const std::vector<walking::Leg>& legs) {
  double sum = 0;
  for (const auto& leg : legs) sum += leg.figures.minutes;
  return sum;
}

TEST(LeaderLegs, HalfAnHourOrSomethingThatIsKnown) {
  Followed way(104);  // 2.5 km: 37 to 40 minutes
  const auto whole = way.legs();
  ASSERT_EQ(whole.size(), 1U);
  ASSERT_GT(minutes(whole), 36);
  ASSERT_LT(minutes(whole), 44);
  way.wall(1010);
  way.known(0.999);
  const auto parted = way.legs();
  ASSERT_EQ(parted.size(), 2U);
  EXPECT_EQ(parted[0].course.to, "Long Drove at March Wall");
  for (const auto& leg : parted) EXPECT_LT(leg.figures.minutes, 30);
  EXPECT_NEAR(minutes(parted), minutes(whole), 1e-6 + 0.01 * minutes(whole));
  way.known(0.9);  // after 1.2 km of count one in ten walks past it: the line itself is surer
  EXPECT_EQ(way.legs().size(), 1U);
}

// Nobody keeps 50 minutes in the head: then the best there is parts it, sure or not.
TEST(LeaderLegs, LongPastThreeQuartersOfAnHourWhatPartsItIsTaken) {
  Followed way(170);  // 3.4 km
  ASSERT_GT(minutes(way.legs()), 45);
  EXPECT_EQ(way.legs().size(), 1U);  // nothing there: it is told to be long
  way.wall(1010);
  way.known(0.9);
  const auto parted = way.legs();
  ASSERT_EQ(parted.size(), 2U);
  for (const auto& leg : parted) EXPECT_LT(leg.figures.minutes, 30);
}

// Of two that part it as well the one with a name.
TEST(LeaderLegs, ANamedPlaceRather) {
  Followed way(104);
  made::line(way.g, Kind::wall, {at(1100, 0), at(1100, 2000)});
  way.wall(940);
  way.known(0.999);
  const auto parted = way.legs();
  ASSERT_EQ(parted.size(), 2U);
  EXPECT_EQ(parted[0].course.to, "Long Drove at March Wall");
}

struct Turning {
  walking::Ground g = made::ground();
  walking::Request r;
  Turning() {
    r.points = {{"start", at(100, 1000)}, {"end", at(1900, 1000)}};
    r.party.max_leg_m = 1500;
  }
  [[nodiscard]] auto reason(GridPoint a, GridPoint turn, GridPoint to) const {
    const Prepared prepared(g, r);
    const landmarks::Surroundings around(g.elevation, g.map, g.kinds);
    return turn_reason({g, prepared, around, r, units::Language::english}, a, turn, to);
  }
  [[nodiscard]] std::vector<GridPoint> mended(std::vector<GridPoint> points) const {
    const Prepared prepared(g, r);
    const landmarks::Surroundings around(g.elevation, g.map, g.kinds);
    mend_turns({g, prepared, around, r, units::Language::english}, points);
    return points;
  }
  [[nodiscard]] std::size_t corners(std::vector<GridPoint> points) const {
    return mended(std::move(points)).size();
  }
  [[nodiscard]] double wading(std::vector<GridPoint> line, walking::LegKind kind,
                              Kind followed = Kind::other) const {
    const Prepared prepared(g, r);
    const landmarks::Surroundings around(g.elevation, g.map, g.kinds);
    walking::Course course;
    course.kind = kind;
    course.followed.kind = followed;
    course.line = std::move(line);
    return wading_s({g, prepared, around, r, units::Language::english}, course);
  }
};

TEST(LeaderLegs, ATurnIsForAReason) {
  Turning t;
  const auto a = at(300, 1000), b = at(800, 1060), c = at(1300, 1000);
  EXPECT_FALSE(t.reason(a, b, c));
  EXPECT_EQ(t.corners({a, b, c}), 2U);
  const auto far = t.reason(at(200, 1000), b, at(1800, 1000));  // 1600 m
  ASSERT_TRUE(far);
  EXPECT_EQ(far->what, What::longest_leg);
  made::box(t.g, Kind::lake, at(700, 900), at(900, 1030), "Mirk Tarn");
  const auto round = t.reason(a, b, c);
  ASSERT_TRUE(round);
  EXPECT_EQ(round->what, What::goes_round);
  EXPECT_EQ(round->bar, walking::Bar::water);
  EXPECT_EQ(round->name, "Mirk Tarn");
  EXPECT_EQ(t.corners({a, b, c}), 3U);
}

// 1600 m: parted for the longest leg alone. The needle stays as it is set.
TEST(LeaderLegs, WhatOnlyPartsALongLegTurnsNothing) {
  const Turning t;
  const auto on = t.mended({at(200, 1000), at(800, 1060), at(1800, 1000)});
  ASSERT_EQ(on.size(), 3U);
  EXPECT_NEAR(on[1].east_m, at(800, 1000).east_m, 1e-6);
  EXPECT_NEAR(on[1].north_m, at(800, 1000).north_m, 1e-6);
}

// By hand: after 700 m a party is off by 30 m across (one standard deviation, of the usual errors); a
// turn 10 m beside the straight line keeps it off no tarn. Where there is no room it stays.
TEST(LeaderLegs, ATurnIsAsWideAsTheNeedleIsUnsure) {
  Turning t;
  const auto a = at(300, 1000), turn = at(1000, 1010), b = at(1700, 1000);
  made::box(t.g, Kind::lake, at(980, 900), at(1020, 1005), "Mirk Tarn");
  const auto wide = t.mended({a, turn, b});
  ASSERT_EQ(wide.size(), 3U);
  EXPECT_GT(wide[1].north_m, at(0, 1025).north_m);
  EXPECT_LT(wide[1].north_m, at(0, 1040).north_m);
  EXPECT_NEAR(wide[1].east_m, turn.east_m, 1e-6);
  made::box(t.g, Kind::lake, at(980, 1020), at(1020, 1100));
  EXPECT_EQ(t.mended({a, turn, b})[1], turn);
}

// Each water on a bearing is a stop; none at a bridge, none where the leg ends, none along a path;
// but along a wall, which has no way over.
TEST(LeaderLegs, WhatIsWadedIsAStop) {
  Turning t;
  using walking::LegKind;
  made::line(t.g, Kind::stream, {at(600, 0), at(600, 2000)});
  made::line(t.g, Kind::stream, {at(800, 0), at(800, 2000)});
  const std::vector across{at(500, 1000), at(900, 1000)};
  EXPECT_DOUBLE_EQ(t.wading(across, LegKind::bearing), 300);
  EXPECT_DOUBLE_EQ(t.wading(across, LegKind::along, Kind::path), 0);
  EXPECT_DOUBLE_EQ(t.wading(across, LegKind::along, Kind::wall), 300);
  EXPECT_DOUBLE_EQ(t.wading({at(500, 1000), at(800, 1000)}, LegKind::bearing), 150);
  t.g.map.points.push_back({{Kind::bridge, ""}, at(600, 1010), 0});
  EXPECT_DOUBLE_EQ(t.wading(across, LegKind::bearing), 150);
}

// By hand: straight over, 1000 m of scree at a quarter of the pace take four times as long.
TEST(LeaderLegs, ATurnThatSavesTime) {
  Turning t;
  t.g.kinds[Kind::scree].speed_factor = 0.25;
  made::box(t.g, Kind::scree, at(500, 900), at(1100, 1100));
  const auto quicker = t.reason(at(300, 1000), at(800, 1150), at(1300, 1000));
  ASSERT_TRUE(quicker);
  EXPECT_EQ(quicker->what, What::quicker);
  EXPECT_GT(quicker->minutes, 10);
}

TEST(LeaderLegs, TheTurnKeepsItsReason) {
  Turning t;
  made::box(t.g, Kind::lake, at(800, 700), at(1200, 1500), "Mirk Tarn");
  t.r.points = {{"start", at(400, 1000)}, {"end", at(1600, 1000)}};
  const auto way = plan_way(t.g, t.r, units::Language::english);
  ASSERT_TRUE(way);
  ASSERT_GE(way->legs.size(), 2U);
  for (std::size_t i = 0; i + 1 < way->legs.size(); ++i) EXPECT_TRUE(way->legs[i].turns_for) << i;
  EXPECT_FALSE(way->legs.back().turns_for);
}

/// Of the way that is named first from 400 to 1600 m east: what its legs follow, other on a bearing.
std::vector<Kind> followed(const walking::Ground& g, walking::Skill skill) {
  walking::Request r;
  r.points = {{"start", at(400, 1000)}, {"end", at(1600, 1000)}};
  r.party.skill = skill;
  r.party.visibility = mapdata::Visibility::cloud;
  numeric::Serial serial;
  const auto found = WayFinder(g).find(r, {.min_certainty = 0.5, .walkers = 0}, serial);
  EXPECT_TRUE(found) << (found ? "" : found.error().what);
  std::vector<Kind> out;
  if (!found) return out;
  for (const auto& leg : found->ways.front().way.legs) {
    const bool along = leg.course.kind == walking::LegKind::along;
    out.push_back(along ? leg.course.followed.kind : Kind::other);
  }
  return out;
}

/// Grass as quick as a path, a hut at the start, a fold at the end; seen from 8 m only.
walking::Ground from_hut_to_fold() {
  auto g = made::ground();
  for (int k = 0; k < mapdata::kind_count; ++k) g.kinds[static_cast<Kind>(k)].seen_from_m.fill(8);
  made::box(g, Kind::grass, at(0, 0), at(2000, 2000));
  g.map.points.push_back({{Kind::hut, "Ravock Hut"}, at(400, 1000), 0});
  g.map.points.push_back({{Kind::sheepfold, "Fold"}, at(1600, 1000), 0});
  return g;
}

// Round a tarn: wires on the north side (1342 m), a path on the south side that is 1 in 100 longer;
// by 2.2 in 10 longer nobody takes it.
TEST(LeaderLegs, APathBeforeWires) {
  const auto tarn = [](double south) {
    auto g = from_hut_to_fold();
    g.kinds[Kind::power_line].leads = g.kinds[Kind::power_line].ticks = true;
    made::box(g, Kind::lake, at(800, 900), at(1200, 1100));
    made::line(g, Kind::power_line, {at(400, 1000), at(1000, 1300), at(1600, 1000)});
    made::line(g, Kind::path, {at(400, 1000), at(1000, south), at(1600, 1000)});
    return g;
  };
  using walking::Skill;
  EXPECT_EQ(followed(tarn(690), Skill::expert), (std::vector{Kind::path}));
  EXPECT_EQ(followed(tarn(690), Skill::novice), (std::vector{Kind::path}));
  EXPECT_EQ(followed(tarn(440), Skill::novice), (std::vector{Kind::power_line}));
}

// Straight 1200 m over grass as quick as a path; the path is 3 in 100 longer, then 30.
TEST(LeaderLegs, APathBeforeTheNeedleAtNearlyTheSameTime) {
  for (const double aside : {150.0, 500.0}) {
    auto g = from_hut_to_fold();
    g.kinds[Kind::sheepfold].seen_from_m.fill(300);
    made::line(g, Kind::path, {at(400, 1000), at(1000, 1000 + aside), at(1600, 1000)});
    EXPECT_EQ(followed(g, walking::Skill::practised),
              (std::vector{aside < 200 ? Kind::path : Kind::other}));
  }
}

// A village of 81 houses, 400 m across, and a street round it. By hand, in metres of path: along the
// street 1510; straight through 480 m are built up, 480 / 0.35 + 720 = 2091, and at 0.95 of a path's
// pace 1225.
TEST(LeaderLegs, StreetsLeadThroughASettlement) {
  auto g = from_hut_to_fold();
  g.kinds[Kind::sheepfold].seen_from_m.fill(150);
  for (int e = 0; e < 9; ++e) {
    for (int n = 0; n < 9; ++n)
      g.map.points.push_back({{Kind::building, ""}, at(800 + 50.0 * e, 800 + 50.0 * n), 0});
  }
  made::line(g, Kind::road, {at(400, 1000), at(740, 640), at(1260, 640), at(1600, 1000)});
  g.kinds[Kind::road].leads = g.kinds[Kind::road].ticks = true;
  for (const double factor : {0.95, 0.35}) {
    g.kinds[Kind::built_up].speed_factor = factor;
    EXPECT_EQ(followed(g, walking::Skill::practised),
              (std::vector{factor > 0.5 ? Kind::other : Kind::road}));
  }
}

}  // namespace
}  // namespace lodeway::route
