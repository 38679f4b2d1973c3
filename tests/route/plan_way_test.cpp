// From a request to legs: cut where a party would cut them, and refused with a reason.
#include "lodeway/route/legs/plan_way.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;
using walking::Leg;
using walking::LegKind;
using walking::Stretch;

walking::Request request(std::vector<walking::Waypoint> points) {
  walking::Request r;
  r.points = std::move(points);
  return r;
}

Result<walking::Way> plan(const walking::Ground& g, const walking::Request& r) {
  return plan_way(g, r, units::Language::english);
}

void expect_fault(const Result<walking::Way>& got, FaultCode code, const std::string& part) {
  ASSERT_FALSE(got);
  EXPECT_EQ(got.error().code, code);
  EXPECT_NE(got.error().what.find(part), std::string::npos) << got.error().what;
}

/// What must hold of any way: legs join, bearing legs are straight, short enough and over open
/// ground.
void expect_sound(const walking::Ground& g, const walking::Request& r, const walking::Way& way) {
  const walking::Cover cover(g, r);
  ASSERT_FALSE(way.legs.empty());
  EXPECT_EQ(way.legs.front().course.line.front(), r.points.front().at);
  EXPECT_EQ(way.legs.back().course.line.back(), r.points.back().at);
  for (std::size_t i = 0; i < way.legs.size(); ++i) {
    const Leg& leg = way.legs[i];
    ASSERT_GE(leg.course.line.size(), 2U);
    if (i > 0) {
      EXPECT_EQ(leg.course.line.front(), way.legs[i - 1].course.line.back());
      EXPECT_EQ(leg.course.from, way.legs[i - 1].course.to);
    }
    EXPECT_FALSE(leg.course.from.empty());
    EXPECT_FALSE(leg.course.to.empty());
    EXPECT_GT(leg.figures.minutes, 0);
    EXPECT_GT(leg.figures.minutes_slow, leg.figures.minutes);
    EXPECT_GT(leg.figures.double_paces, 0);
    if (leg.course.kind == LegKind::along) {
      EXPECT_FALSE(leg.course.followed.name.empty());
      continue;
    }
    EXPECT_EQ(leg.course.line.size(), 2U);
    EXPECT_LE(earth::grid_distance_m(leg.course.line[0], leg.course.line[1]), r.party.max_leg_m + 1e-6);
    const auto blocked = cover.first_bar(leg.course.line[0], leg.course.line[1]);
    EXPECT_EQ(blocked.bar, walking::Bar::none)
        << i << " " << walking::bar_words(blocked) << " at " << blocked.at.east_m << " "
        << blocked.at.north_m << " from " << leg.course.line[0].east_m << " " << leg.course.line[0].north_m
        << " to " << leg.course.line[1].east_m << " " << leg.course.line[1].north_m;
  }
}

TEST(PlanWay, OpenGroundIsOneStraightLeg) {
  const auto g = made::ground();
  const auto r = request({{"start", at(200, 200)}, {"end", at(1100, 700)}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  ASSERT_EQ(way->legs.size(), 1U);
  const Leg& leg = way->legs[0];
  EXPECT_EQ(leg.course.kind, LegKind::bearing);
  EXPECT_NEAR(leg.figures.bearing.in_degrees(), 60.9454, 1e-4);  // atan(900 / 500)
  EXPECT_EQ(leg.course.from, "start");
  EXPECT_EQ(leg.course.to, "end");
  EXPECT_EQ(way->name, "quick");
}

TEST(PlanWay, LegsAreNoLongerThanTheLeaderSets) {
  const auto g = made::ground();
  auto r = request({{"start", at(100, 100)}, {"end", at(1900, 1900)}});
  r.party.max_leg_m = 900;  // 2546 m straight: three legs at least
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  EXPECT_GE(way->legs.size(), 3U);
  EXPECT_LE(way->legs.size(), 4U);
  const double length =
      std::accumulate(way->legs.begin(), way->legs.end(), 0.0,
                      [](double sum, const Leg& leg) { return sum + mapdata::length_m(leg.course.line); });
  EXPECT_LT(length, 1.01 * 1800 * std::sqrt(2.0));
}

TEST(PlanWay, RoundALakeInFewLegs) {
  auto g = made::ground();
  made::box(g, Kind::lake, at(600, 400), at(1200, 1500), "Mirk Tarn");
  const auto r = request({{"start", at(300, 1000)}, {"end", at(1500, 1000)}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  EXPECT_LE(way->legs.size(), 4U);
  const double length =
      std::accumulate(way->legs.begin(), way->legs.end(), 0.0,
                      [](double sum, const Leg& leg) { return sum + mapdata::length_m(leg.course.line); });
  // By hand, round the northern corners: 583.1 + 600 + 583.1.
  EXPECT_GE(length, 2 * std::hypot(300, 500) + 600 - 1e-6);
  EXPECT_LT(length, 1.06 * (2 * std::hypot(300, 500) + 600));
}

TEST(PlanWay, ACornerIsPutWhereSomethingIs) {
  auto g = made::ground();
  made::box(g, Kind::lake, at(600, 400), at(1200, 1500), "Mirk Tarn");
  g.map.points.push_back({{Kind::sheepfold, "High Fold"}, at(585, 1530), NAN});
  const auto r = request({{"start", at(300, 1000)}, {"end", at(1500, 1000)}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  EXPECT_TRUE(std::ranges::any_of(way->legs, [](const Leg& leg) { return leg.course.to == "High Fold"; }));
}

// Off the path to a summit: the path is left at the wall that crosses it, not a little on.
TEST(PlanWay, APathIsLeftAtSomethingToSee) {
  auto g = made::ground();
  made::line(g, Kind::path, {at(100, 500), at(1900, 500)}, "Drove");
  g.map.points.push_back({{Kind::summit, "Pike"}, at(1600, 1400), NAN});
  const auto r = request({{"start", at(100, 500)}, {"Pike", at(1600, 1400)}});
  const auto bare = plan(g, r);
  ASSERT_TRUE(bare) << bare.error().what;
  expect_sound(g, r, *bare);
  ASSERT_EQ(bare->legs.size(), 2U);
  EXPECT_EQ(bare->legs[0].course.followed.name, "Drove");
  const double left_at = bare->legs[0].course.line.back().east_m - 480000;

  const double wall = left_at - 80;
  made::line(g, Kind::wall, {at(wall, 300), at(wall, 900)}, "");
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  ASSERT_GE(way->legs.size(), 2U);
  EXPECT_EQ(way->legs[0].course.kind, LegKind::along);
  EXPECT_NEAR(way->legs[0].course.line.back().east_m - 480000, wall, 1.0);
  EXPECT_EQ(way->legs[0].course.to, "Drove at wall");
}

TEST(PlanWay, TheRiverIsCrossedAtTheBridge) {
  auto g = made::ground();
  made::line(g, Kind::river, {at(1000, -10), at(1020, 900), at(1000, 2010)}, "Brindle");
  g.map.points.push_back({{Kind::bridge, "Withy Bridge"}, at(1013, 1300), NAN});
  const auto r = request({{"start", at(500, 900)}, {"end", at(1500, 900)}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  EXPECT_TRUE(
      std::ranges::any_of(way->legs, [](const Leg& leg) { return leg.course.to == "Withy Bridge"; }));
}

// A motorway bars from side to side; it is crossed where the map's path does so, over it or under
// it, and nobody is led along it.
TEST(PlanWay, AMotorwayIsCrossedOnTheMapsOwnWaysAndNotWalked) {
  auto g = made::ground();
  made::line(g, Kind::forbidden, {at(1000, 0), at(1000, 2000)}, "M1");
  made::line(g, Kind::path, {at(400, 1500), at(1600, 1500)});
  const walking::Cover cover(g, {});
  EXPECT_EQ(cover.first_bar(at(800, 305), at(1200, 305)).bar, walking::Bar::forbidden);
  EXPECT_EQ(cover.first_bar(at(800, 305), at(1200, 305)).name, "M1");
  const auto r = request({{"start", at(900, 300)}, {"end", at(1100, 300)}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  double length = 0;
  for (const auto& leg : way->legs) {
    length += mapdata::length_m(leg.course.line);
    EXPECT_NE(leg.course.followed.kind, Kind::forbidden);
    for (std::size_t i = 1; i < leg.course.line.size(); ++i) {
      const auto a = leg.course.line[i - 1], b = leg.course.line[i];
      if ((a.east_m < at(1000, 0).east_m) == (b.east_m < at(1000, 0).east_m)) continue;
      EXPECT_EQ(leg.course.kind, LegKind::along);
      EXPECT_NEAR(a.north_m, at(0, 1500).north_m, 1) << "crossed off the path";
    }
  }
  EXPECT_GT(length, 2 * 1150) << "up to the path and down again";
}

TEST(PlanWay, AHandrailNamedAndALongOneParted) {
  const auto drove = [](double swing_m) {
    std::vector<earth::GridPoint> out;
    for (int k = 0; k <= 360; ++k)
      out.push_back(at(100 + 5.0 * k, 1000 + swing_m * std::sin(k * 0.07)));
    return out;
  };
  const auto crossed = [](const std::vector<earth::GridPoint>& path) {
    auto g = made::ground();
    made::line(g, Kind::path, path, "Long Drove");
    made::line(g, Kind::wall, {at(1010, 0), at(1010, 2000)}, "March Wall");
    return g;
  };
  const auto winding = drove(104);  // 2.5 km of path in bends, some 40 minutes
  auto g = crossed(winding);
  auto r = request({{"start", winding.front()}, {"end", winding.back(), Stretch::along}});
  // 1.2 km of count before the wall, which 9 of 10 know in passing: to end there would lose the leg
  r.party.chances.kinds = {{walking::ChanceOf::know, Kind::wall, {0.9, 0.9, 0.9, 0.9}}};
  const auto whole = plan(g, r);
  ASSERT_TRUE(whole) << whole.error().what;
  EXPECT_EQ(whole->legs.size(), 1U);
  // over 3.5 km or 45 minutes are parted at the best there is, sure or not
  const auto longer = drove(250);
  EXPECT_GT(mapdata::length_m(longer), 3500);
  const auto parted =
      plan(crossed(longer),
           request({{"start", longer.front()}, {"end", longer.back(), Stretch::along}}));
  ASSERT_TRUE(parted) << parted.error().what;
  ASSERT_EQ(parted->legs.size(), 2U);
  EXPECT_EQ(parted->legs[0].course.to, "Long Drove at March Wall");
  made::line(g, Kind::stream, {at(985, 0), at(985, 2000)});  // some 65 m before it
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  ASSERT_EQ(way->legs.size(), 2U);
  EXPECT_EQ(way->legs[0].course.to, "Long Drove at March Wall");
  EXPECT_EQ(way->legs[0].course.followed.kind, Kind::path);
  EXPECT_NEAR(
      mapdata::length_m(way->legs[0].course.line) + mapdata::length_m(way->legs[1].course.line),
      mapdata::length_m(winding), 1.0);
  EXPECT_EQ(way->name, "given by the leader");
}

TEST(PlanWay, AlongSaysWhatIsMissing) {
  auto g = made::ground();
  made::line(g, Kind::wall, {at(200, 1000), at(900, 1000)}, "Long Wall");
  made::line(g, Kind::stream, {at(1200, 1000), at(1900, 1000)}, "Ashrow Beck");
  expect_fault(plan(g, request({{"A", at(200, 1000)}, {"B", at(900, 1120), Stretch::along}})),
               FaultCode::no_way, "within 75 m of B: the nearest, Long Wall, is 120 m off");
  expect_fault(plan(g, request({{"A", at(200, 1000)}, {"B", at(1900, 1000), Stretch::along}})),
               FaultCode::no_way, "do not join");
  auto r = request({{"A", at(200, 1030)}, {"B", at(900, 990), Stretch::along}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  ASSERT_EQ(way->legs.size(), 1U);
  EXPECT_EQ(way->legs[0].course.followed.name, "Long Wall");
  EXPECT_NEAR(mapdata::length_m(way->legs[0].course.line), 30 + 700 + 10, 0.01);
  r.avoid.push_back({"the butts", {at(500, 900), at(600, 900), at(600, 1100), at(500, 1100)}});
  expect_fault(plan(g, r), FaultCode::no_way, "an area to avoid (the butts) at 480500 6051000");
}

// A party 5 m up the beck from a bridge, asked along the road and to a place 10 m up the next beck,
// walks one leg along the road; 60 m up a beck are a leg of their own.
TEST(PlanWay, FewStepsAlongAnotherThingAreNoLeg) {
  auto g = made::ground();
  made::line(g, Kind::path, {at(200, 1000), at(600, 1000), at(1000, 1000)}, "Drove");
  made::line(g, Kind::stream, {at(600, 1100), at(600, 1000), at(600, 900)}, "Ashrow Beck");
  made::line(g, Kind::stream, {at(1000, 1100), at(1000, 1000)}, "Low Beck");
  const auto legs = [&](double up_from, double up_to) {
    const auto way = plan(g, request({{"A", at(600, 1000 + up_from)},
                                      {"B", at(1000, 1000 + up_to), Stretch::along}}));
    std::vector<std::string> out;
    for (const auto& leg : way.value().legs) out.push_back(leg.course.followed.name);
    EXPECT_NEAR(mapdata::length_m(way.value().legs.front().course.line) +
                    (out.size() > 1 ? mapdata::length_m(way.value().legs.back().course.line) : 0),
                up_from + 400 + up_to, 0.01);
    return out;
  };
  EXPECT_EQ(legs(5, 10), (std::vector<std::string>{"Drove"}));
  EXPECT_EQ(legs(5, 60), (std::vector<std::string>{"Drove", "Low Beck"}));
  EXPECT_EQ(legs(60, 10), (std::vector<std::string>{"Ashrow Beck", "Drove"}));
}

TEST(PlanWay, ABearingIsRefusedWhereItIsBarred) {
  auto g = made::ground();
  made::box(g, Kind::lake, at(600, 400), at(1200, 1500), "Mirk Tarn");
  expect_fault(plan(g, request({{"A", at(300, 1000)}, {"B", at(1500, 1000), Stretch::bearing}})),
               FaultCode::no_way,
               "the bearing from A to B meets water (Mirk Tarn) at 480600 6051000");
  const auto r = request({{"A", at(300, 200)}, {"B", at(1500, 200), Stretch::bearing}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  EXPECT_EQ(way->legs.size(), 1U);
}

// A summit's own cell is over the slope limit: the party goes there all the same, in one leg.
TEST(PlanWay, ASteepSummitIsReached) {
  auto g = made::ground();
  g.elevation[100, 100] = 240.0F;
  auto r = request({{"start", at(1700, 995)}, {"Needle", at(1015, 995)}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  ASSERT_EQ(walking::Cover(g, r).bar_at(at(1015, 995)), walking::Bar::steep);
  EXPECT_EQ(way->legs.size(), 1U);
}

TEST(PlanWay, ViasAndNamesFromTheMap) {
  auto g = made::ground();
  g.map.points.push_back({{Kind::hut, "Corrow Hut"}, at(1000, 1000), NAN});
  const auto r = request({{"", at(200, 200)}, {"", at(1000, 1000)}, {"home", at(1800, 300)}});
  const auto way = plan(g, r);
  ASSERT_TRUE(way) << way.error().what;
  expect_sound(g, r, *way);
  EXPECT_EQ(way->legs.front().course.from, "point 1");
  EXPECT_TRUE(
      std::ranges::any_of(way->legs, [](const Leg& leg) { return leg.course.to == "Corrow Hut"; }));
  expect_fault(plan(g, request({{"alone", at(200, 200)}})), FaultCode::bad_input, "two points");
  const auto stopped =
      plan_way(g, r, units::Language::english, [](std::size_t, std::size_t) { return false; });
  expect_fault(stopped, FaultCode::cancelled, "stopped");
}

/// Hills, tarns, a river with a bridge and a ford, paths and walls, by chance.
walking::Ground random_ground(numeric::Random& random) {
  auto g = made::ground();
  const auto any = [&] { return at(2000 * random.uniform(), 2000 * random.uniform()); };
  const double a = 0.02 + 0.05 * random.uniform(), b = 0.02 + 0.05 * random.uniform();
  for (int r = 0; r < 200; ++r) {
    for (int c = 0; c < 200; ++c) {
      g.elevation[r, c] = static_cast<float>(400 + 90 * std::sin(a * r) * std::cos(b * c));
    }
  }
  for (int k = 0; k < 6; ++k) {
    const auto sw = any();
    made::box(g, k < 4 ? Kind::lake : Kind::marsh, sw,
              sw + earth::GridPoint{30 + 300 * random.uniform(), 30 + 300 * random.uniform()});
  }
  g.kinds[Kind::marsh].speed_factor = 0.45;
  const double x = 600 + 800 * random.uniform();
  made::line(g, Kind::river, {at(x, -10), at(x + 80, 700), at(x - 60, 1300), at(x, 2010)},
             "Brindle");
  g.map.points.push_back({{Kind::bridge, ""}, at(x + 40, 350), NAN});
  g.map.points.push_back({{Kind::ford, ""}, at(x - 60, 1300), NAN});
  for (int k = 0; k < 5; ++k) made::line(g, k < 3 ? Kind::path : Kind::wall, {any(), any(), any()});
  made::line(g, Kind::cliff, {any(), any()});
  return g;
}

TEST(PlanWayLaws, SoundOnAnyGround) {
  numeric::Random random(21);
  int found = 0, refused = 0;
  for (int k = 0; k < 40; ++k) {
    SCOPED_TRACE(k);
    const auto g = random_ground(random);
    auto r = request({{"start", at(2000 * random.uniform(), 2000 * random.uniform())},
                      {"end", at(2000 * random.uniform(), 2000 * random.uniform())}});
    r.party.max_leg_m = 400 + 1000 * random.uniform();
    r.party.max_slope_deg = 25;
    const walking::Cover cover(g, r);
    const auto open = [&](const walking::Waypoint& p) {
      return cover.bar_at(p.at) == walking::Bar::none;
    };
    const auto way = plan(g, r);
    if (way && open(r.points[0]) &&
        open(r.points[1])) {  // a start on steep ground is the leader's own
      expect_sound(g, r, *way);
      ++found;
    } else if (!way) {
      EXPECT_FALSE(way.error().what.empty());
      EXPECT_NE(way.error().code, FaultCode::cancelled);
      ++refused;
    }
  }
  EXPECT_GE(found, 20) << refused;
}

}  // namespace
}  // namespace lodeway::route
