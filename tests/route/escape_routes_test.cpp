#include "lodeway/route/escape/escape_routes.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "made_ground.hpp"
#include "lodeway/route/escape/escape_judge.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;
using reckoning::Escape;
using reckoning::LeavesAt;

walking::Ground ground() {
  auto g = made::ground();
  auto& road = g.kinds[Kind::road];
  road.leads = road.ticks = road.catches = true;
  return g;
}

/// All that escape routes are asked with, on a way whose places are given.
struct Asked {
  const walking::Ground& ground;
  walking::Request request;
  Prepared prepared;
  landmarks::Surroundings around;
  terrain::Raster<float> slopes;
  std::shared_ptr<const reckoning::HazardGround> hazards;
  std::shared_ptr<const landmarks::Fixes> fixes;
  reckoning::Judge judge;
  Cutting cutting;

  Asked(const walking::Ground& g, const walking::Request& r)
      : ground(g),
        request(r),
        prepared(g, request),
        around(g.elevation, g.map, g.kinds),
        slopes(terrain::slope_raster(g.elevation)),
        hazards(std::make_shared<const reckoning::HazardGround>(
            reckoning::forbidden_of(prepared.cover))),
        fixes(std::make_shared<const landmarks::Fixes>(g.elevation, g.map, g.kinds)),
        judge(g, request.party, 0.4, {}, hazards, fixes),
        cutting{g, prepared, around, request, units::Language::english} {}

  /// A list a leg.
  EscapesOfWay escapes(KeptFields* kept = nullptr, double most_hazard = 0.05) const {
    return found(std::nullopt, kept, most_hazard).of_ways.front();
  }
  Escapes found(std::optional<CutFrom> cut, KeptFields* kept = nullptr,
                double most_hazard = 0.05) const {
    walking::Way way;
    for (std::size_t i = 1; i < request.points.size(); ++i) {
      auto legs = given_stretch(cutting, request.points[i - 1], request.points[i]);
      EXPECT_TRUE(legs) << (legs ? "" : legs.error().what);
      if (legs) std::ranges::move(*legs, std::back_inserter(way.legs));
    }
    const auto judged = reckoning::Teller(judge).judged(way);
    const EscapeRoutes routes(cutting, judge, most_hazard, {hazards, fixes, slopes, kept, cut});
    numeric::Serial serial;
    return routes.of({&judged}, serial);
  }
};

walking::Request from_a_over_b_to_c(walking::Stretch first = walking::Stretch::bearing) {
  walking::Request r;
  r.party.time_band = 0.15;  // the model as it is
  r.points = {{"A", at(205, 1005)}, {"B", at(1005, 1005), first},
              {"C", at(1805, 1005), walking::Stretch::bearing}};
  return r;
}

// By hand: B lies 400 m north of the road. The party walks 4 km/h on a path and four fifths of it,
// 3.2 km/h, on ground whose cover the map does not show (Aitken 1977): 7.5 min. A and C are 800 m
// off, 15 min, over one and a half times as much.
TEST(EscapeRoutes, SouthToTheRoad) {
  auto g = ground();
  made::line(g, Kind::road, {at(0, 605), at(2000, 605)}, "Low road");
  const auto legs = Asked(g, from_a_over_b_to_c()).escapes();
  ASSERT_EQ(legs.size(), 2U);
  ASSERT_EQ(legs[0].size(), 2U);  // 15 min are not left midway
  EXPECT_EQ(legs[0][0].from, LeavesAt::start);
  const auto& off = legs[0][1];
  EXPECT_EQ(off.from, LeavesAt::end);
  EXPECT_EQ(off.to, "Low road");
  ASSERT_EQ(off.legs.size(), 1U);
  EXPECT_EQ(off.legs[0].course.from, "B");
  EXPECT_EQ(off.legs[0].course.to, "Low road");
  EXPECT_NEAR(off.legs[0].figures.bearing.in_degrees(), 180, 2);
  EXPECT_NEAR(off.minutes, 7.5, 0.1);
  EXPECT_DOUBLE_EQ(off.minutes, off.legs[0].judged.minutes);
  EXPECT_EQ(off.hazard_probability, 0);
  EXPECT_FALSE(off.back);
  // What ends one leg begins the next.
  ASSERT_EQ(legs[1].size(), 2U);
  EXPECT_EQ(legs[1][0].from, LeavesAt::start);
  EXPECT_EQ(legs[1][0].minutes, off.minutes);
  EXPECT_EQ(legs[1][0].certainty, off.certainty);
}

TEST(EscapeRoutes, WhoStandsOnSafeGroundNeedsNoLegs) {
  auto g = ground();
  made::line(g, Kind::road, {at(1005, 0), at(1005, 2000)}, "High road");
  const auto legs = Asked(g, from_a_over_b_to_c()).escapes();
  for (const auto& [route, to] : {std::pair{&legs[0][0], "A"}, std::pair{&legs[0][1], "High road"},
                                  std::pair{&legs[1][0], "High road"}, std::pair{&legs[1][1], "C"}}) {
    EXPECT_TRUE(route->legs.empty());
    EXPECT_EQ(route->minutes, 0);
    EXPECT_EQ(route->certainty, 1);
    EXPECT_EQ(route->to, to);
  }
}

// No road: along the path back to A take 12 min and over open ground on to C 15, less than one and
// a half times as much; the path is the surer. Who is within a cell and a half of A, 15 m or 0.23 min,
// is at A.
TEST(EscapeRoutes, BackAlongThePath) {
  auto g = ground();
  made::line(g, Kind::path, {at(205, 1005), at(1005, 1005)}, "Hause path");
  const auto off = Asked(g, from_a_over_b_to_c(walking::Stretch::along)).escapes()[0].back();
  EXPECT_EQ(off.to, "A");
  ASSERT_EQ(off.legs.size(), 1U);
  EXPECT_EQ(off.legs[0].course.kind, walking::LegKind::along);
  EXPECT_EQ(off.legs[0].course.followed.name, "Hause path");
  EXPECT_NEAR(off.legs[0].course.line.back().east_m, 480205, 15);
  EXPECT_NEAR(off.minutes, 12, 0.23);
}

// The road is again 400 m off, but two tarns leave a gap of 30 m: of a party whose bearing errs by
// some degrees more than 5 of 100 step into the water. Back along the path takes 12 min instead of
// 7.5, and is taken.
TEST(EscapeRoutes, GroundToKeepOffGoesBeforeTime) {
  auto g = ground();
  made::line(g, Kind::road, {at(0, 605), at(2000, 605)}, "Low road");
  made::line(g, Kind::path, {at(205, 1005), at(1005, 1005)}, "Hause path");
  made::box(g, Kind::lake, at(200, 640), at(990, 900), "West Tarn");
  made::box(g, Kind::lake, at(1020, 640), at(1900, 900), "East Tarn");
  const auto off = Asked(g, from_a_over_b_to_c(walking::Stretch::along)).escapes()[0].back();
  EXPECT_EQ(off.to, "A");
  EXPECT_LE(off.hazard_probability, 0.05);
  EXPECT_NEAR(off.minutes, 12, 0.1);
}

// The ground falls by 62.5 m over 100 m, 32 degrees, between B and a road 250 m off. The road is
// the way down when no snow lies; in snow it is not.
TEST(EscapeRoutes, InSnowNotOverSlopesThatSlide) {
  auto g = ground();
  for (int r = 0; r < 200; ++r) {
    const double north = 2000 - 10 * r - 5;
    const double z = 200 + 62.5 * std::clamp((north - 800) / 100, 0.0, 1.0);
    for (int c = 0; c < 200; ++c) g.elevation[r, c] = static_cast<float>(z);
  }
  made::line(g, Kind::road, {at(0, 755), at(2000, 755)}, "Low road");
  made::line(g, Kind::path, {at(205, 1005), at(1005, 1005)}, "Hause path");
  auto request = from_a_over_b_to_c(walking::Stretch::along);
  EXPECT_EQ(Asked(g, request).escapes()[0].back().to, "Low road");
  request.party.visibility = mapdata::Visibility::snow;
  const auto off = Asked(g, request).escapes()[0].back();
  EXPECT_EQ(off.to, "A");
  EXPECT_FALSE(off.snow_slope);
}

// 1600 m along a path take 24 min: it is left midway too, 12 min from either end
// less the last 15 m, 0.23 min, which count as the end.
TEST(EscapeRoutes, ALongLegIsLeftFromItsMiddle) {
  auto g = ground();
  made::line(g, Kind::path, {at(205, 1005), at(1805, 1005)}, "Hause path");
  walking::Request r;
  r.party.time_band = 0.15;
  r.points = {{"A", at(205, 1005)}, {"C", at(1805, 1005), walking::Stretch::along}};
  const auto legs = Asked(g, r).escapes();
  ASSERT_EQ(legs.size(), 1U);
  ASSERT_EQ(legs[0].size(), 3U);
  const auto& off = legs[0][1];
  EXPECT_EQ(off.from, LeavesAt::middle);
  ASSERT_EQ(off.legs.size(), 1U);
  EXPECT_NEAR(off.legs[0].course.line.front().east_m, 481005, 1);
  EXPECT_EQ(off.legs[0].course.kind, walking::LegKind::along);
  EXPECT_NEAR(off.minutes, 12, 0.23);
}

// Half way between two huts on a path: it ends at C, where nobody can go too far, and goes on past
// A, where 5 in 100 do. So on is surer than back by less than 10 in 100, and on level ground that
// decides. With a rise of 60 m across the path before C it does not: back is level, 12 min.
TEST(EscapeRoutes, NotOnOverATopForAFewInAHundred) {
  const auto from_half_way = [](float rise_m) {
    auto g = ground();
    made::line(g, Kind::path, {at(5, 1005), at(1805, 1005)}, "Hause path");
    g.kinds[Kind::hut].recognised.fill(0.95);
    g.map.points.push_back({{Kind::hut, "Low hut"}, at(205, 1005)});
    g.map.points.push_back({{Kind::hut, "Kell hut"}, at(1805, 1005)});
    auto& heights = g.elevation;
    for (int r = 0; r < heights.rows(); ++r) {
      for (int c = 120; c <= 170; ++c)  // 10 m a cell: up 250 m, down 250 m
        heights[r, c] += rise_m * (1 - std::abs(static_cast<float>(c) - 145) / 25);
    }
    walking::Request q;
    q.party.time_band = 0.15;
    q.points = {{"A", at(205, 1005)}, {"C", at(1805, 1005), walking::Stretch::along}};
    const auto legs = Asked(g, q).escapes();
    EXPECT_EQ(legs[0].size(), 3U);
    return legs[0][1];
  };
  const auto level = from_half_way(0), over = from_half_way(60);
  EXPECT_EQ(level.to, "C");
  EXPECT_EQ(over.to, "A");
  EXPECT_LT(level.certainty, over.certainty + rise_worth);
}

// From 200 m up 30 m and down 50 m on two legs: 30 m over where they begin; only down: 0.
TEST(EscapeJudge, RiseIsTheHighestPlaceOverTheFirst) {
  auto g = ground();
  const auto height_at = [](int c) { return c <= 50 ? 200 + 0.6 * c : 230 - 0.5 * (c - 50); };
  for (int r = 0; r < g.elevation.rows(); ++r)
    for (int c = 0; c < g.elevation.cols(); ++c)
      g.elevation[r, c] = static_cast<float>(height_at(c));
  const auto leg = [](double from, double to) {
    walking::Leg out;
    out.course.line = {at(from, 1005), at(to, 1005)};
    return out;
  };
  EXPECT_NEAR(rise_m(g.elevation, {leg(5, 305), leg(305, 1505)}), 30, 0.3);
  EXPECT_NEAR(rise_m(g.elevation, {leg(605, 1505)}), 0, 0.01);
  EXPECT_NEAR(rise_m(g.elevation, {leg(905, 505)}), 20, 0.3);
}

// In cloud a hut is seen from 30 m and known by half of those who see it: no escape route is surer
// than it is there.
TEST(EscapeRoutes, WhatIsWorseOfTripAndCloudCounts) {
  auto g = ground();
  g.map.points.push_back({{Kind::hut, "Moss hut"}, at(1005, 605)});
  const auto fair = Asked(g, from_a_over_b_to_c()).escapes()[0].back();
  g.kinds[Kind::hut].seen_from_m[static_cast<std::size_t>(mapdata::Visibility::cloud)] = 30;
  g.kinds[Kind::hut].recognised[static_cast<std::size_t>(mapdata::Visibility::cloud)] = 0.5;
  const auto worse = Asked(g, from_a_over_b_to_c()).escapes()[0].back();
  ASSERT_EQ(fair.to, "Moss hut");
  ASSERT_EQ(worse.to, "Moss hut");
  EXPECT_GT(fair.certainty, 0.7);
  EXPECT_LE(worse.certainty, 0.5);
}

// A field that was kept as far as one way needed it serves only where it is settled.
TEST(EscapeRoutes, KeptIsAsWorkedOutAnew) {
  auto g = ground();
  made::line(g, Kind::road, {at(0, 105), at(2000, 105)}, "Low road");
  KeptFields kept(1);
  for (const double north : {1005.0, 405.0, 1045.0, 1905.0, 1005.0}) {
    auto request = from_a_over_b_to_c();
    for (auto& p : request.points) p.at.north_m = 6050000 + north;
    const Asked asked(g, request);
    const auto with = asked.escapes(&kept), without = asked.escapes();
    for (std::size_t k = 0; k < with.size(); ++k) {
      ASSERT_EQ(with[k].size(), without[k].size());
      for (std::size_t i = 0; i < with[k].size(); ++i) {
        EXPECT_EQ(with[k][i].to, without[k][i].to);
        EXPECT_EQ(with[k][i].minutes, without[k][i].minutes);
        EXPECT_EQ(with[k][i].certainty, without[k][i].certainty);
      }
    }
  }
}

// By hand, as above: C is 800 m on. Who was lost at A does not stand on safe ground there: the road
// is 400 m south of it, and from B too the way back to A is none.
// From B the road lies 400 m south, and the ground's north side 995 m north: where it goes on
// beyond, nothing there is nearer, until what lies within 600 m of the cut counts as beyond. What is
// found in the piece is the same either way; and there is no beyond where nothing was cut.
TEST(EscapeRoutes, WhatLiesBeyondACutMayBeNearer) {
  auto g = ground();
  made::line(g, Kind::road, {at(0, 605), at(2000, 605)}, "Low road");
  const Asked asked(g, from_a_over_b_to_c());
  const auto& own = g.elevation.frame();
  auto north = own;
  north.north_m += 1000;
  north.rows += 100;
  const auto known = asked.found(std::nullopt);
  EXPECT_FALSE(known.nearer_beyond);
  EXPECT_FALSE(asked.found(CutFrom{own, 600}).nearer_beyond);
  KeptFields kept(1);
  for (const double within : {0.0, 500.0, 600.0, 700.0}) {
    const auto found = asked.found(CutFrom{north, within}, &kept);
    EXPECT_EQ(found.nearer_beyond, within >= 600) << within;
    for (std::size_t k = 0; k < 2; ++k) {
      ASSERT_EQ(found.of_ways[0][k].size(), known.of_ways[0][k].size());
      for (std::size_t i = 0; i < found.of_ways[0][k].size(); ++i) {
        EXPECT_EQ(found.of_ways[0][k][i].minutes, known.of_ways[0][k][i].minutes);
        EXPECT_EQ(found.of_ways[0][k][i].to, known.of_ways[0][k][i].to);
      }
    }
  }
}

TEST(EscapeRoutes, AStartThatIsNoSafeGround) {
  auto g = ground();
  made::line(g, Kind::road, {at(0, 605), at(2000, 605)}, "Low road");
  auto request = from_a_over_b_to_c();
  request.points[0].safe = false;
  const auto legs = Asked(g, request).escapes();
  EXPECT_EQ(legs[0][0].to, "Low road");
  EXPECT_NEAR(legs[0][0].minutes, 7.5, 0.1);
  for (const auto& of_leg : legs) {
    for (const auto& route : of_leg) EXPECT_NE(route.to, "A");
  }
  EXPECT_EQ(legs[1][1].to, "C");  // the end still is
}

// From B 400 m west to M, which nothing marks, and 400 m south to A, with a cliff beyond M: who counts
// two sigmas too little comes to one at 30 m and not to one at 300 m. Beyond A, which is safe ground
// and ends the route, it does not count.
TEST(EscapeJudge, ACliffBeyondATurnIsADropAhead) {
  const auto to_a_drop = [](double cliff_east, double cliff_north) {
    auto g = ground();
    const auto p = at(cliff_east, cliff_north);
    made::line(g, Kind::cliff, {{p.east_m - 5, p.north_m - 100}, {p.east_m + 5, p.north_m + 100}});
    walking::Request r;
    r.points = {{"B", at(1205, 1005)}, {"M", at(805, 1005), walking::Stretch::bearing},
                {"A", at(805, 605), walking::Stretch::bearing}};
    const Asked asked(g, r);
    walking::Way way;
    for (std::size_t i = 1; i < r.points.size(); ++i) {
      auto leg = leg_straight(asked.cutting, r.points[i - 1], r.points[i]);
      EXPECT_TRUE(leg);
      std::ranges::move(*leg, std::back_inserter(way.legs));
    }
    const auto judged = reckoning::Teller(asked.judge).judged(way);
    const EscapeJudge judge(asked.judge, asked.judge, asked.prepared.cover, *asked.hazards, nullptr);
    return judge.judged(way.legs, {&judged, 0, 0, r.points[0].at}, "A", false).to_a_drop;
  };
  EXPECT_TRUE(to_a_drop(775, 1005));
  EXPECT_FALSE(to_a_drop(505, 1005));
  EXPECT_FALSE(to_a_drop(1700, 1005));
  EXPECT_FALSE(to_a_drop(805, 455));
}

// A cairn marks M, and a cliff stands 150 m behind it: the card stops who misses it before the cliff,
// and the route is judged so: fewer come to it than of a party that goes on as far as it would.
TEST(EscapeJudge, NobodyGoesOnFartherThanTheCardSays) {
  auto g = ground();
  g.kinds[Kind::cairn].ticks = true;
  g.kinds[Kind::cairn].seen_from_m.fill(40);
  g.map.points.push_back({{Kind::cairn, ""}, at(805, 1005)});
  made::line(g, Kind::cliff, {at(690, 700), at(690, 1300)});
  walking::Request r;
  r.party.chances.kinds = {{walking::ChanceOf::know, Kind::cairn, {0.5, 0.5, 0.5, 0.5}}};
  r.points = {{"B", at(1605, 1005)}, {"M", at(805, 1005), walking::Stretch::bearing},
              {"A", at(805, 605), walking::Stretch::bearing}};
  const Asked asked(g, r);
  walking::Way way;
  for (std::size_t i = 1; i < r.points.size(); ++i) {
    auto leg = leg_straight(asked.cutting, r.points[i - 1], r.points[i]);
    ASSERT_TRUE(leg);
    std::ranges::move(*leg, std::back_inserter(way.legs));
  }
  const auto judged = reckoning::Teller(asked.judge).judged(way);
  ASSERT_NE(judged.legs[0].judged.if_lost.find("past your count"), std::string::npos);
  const EscapeJudge judge(asked.judge, asked.judge, asked.prepared.cover, *asked.hazards, nullptr);
  const auto route = judge.judged(way.legs, {&judged, 0, 0, r.points[0].at}, "A", false).route;
  EXPECT_GT(judged.legs[0].judged.hazard_probability, 0.1);
  EXPECT_LT(route.legs[0].judged.hazard_probability,
            judged.legs[0].judged.hazard_probability - 0.05);
  EXPECT_LE(route.legs[0].judged.certainty, judged.legs[0].judged.certainty);
}

// A tent on a cell that is barred itself is reached from the cells beside it; one in the middle of
// a lake, or out of the ground, is refused. 8 m below an edge is within the error of a party that
// comes 187 m on a bearing: only for a leader who takes that risk it is an escape route, else it is
// 800 m back to A.
TEST(SafeGround, WhereTheLeaderSaysItIs) {
  auto g = ground();
  made::box(g, Kind::lake, at(950, 1300), at(1050, 1400), "Mirk Tarn");
  made::line(g, Kind::cliff, {at(1000, 1200), at(1030, 1200)}, "Edge");
  auto request = from_a_over_b_to_c();
  request.safe = {{"Tent", at(1005, 1192)}};
  const Asked asked(g, request);
  ASSERT_EQ(asked.prepared.cover.bar_at(at(1005, 1199)), walking::Bar::cliff);
  EXPECT_TRUE(check_haven(g, asked.prepared, request.safe[0]));
  EXPECT_EQ(asked.escapes(nullptr, 1)[0].back().to, "Tent");
  EXPECT_EQ(asked.escapes()[0].back().to, "A");
  const auto lake = check_haven(g, asked.prepared, {"Tent", {481000, 6051350}});
  ASSERT_FALSE(lake);
  EXPECT_EQ(lake.error().what,
            "safe: Tent (481000 6051350): expected open ground, here is water (Mirk Tarn)");
  const auto out = check_haven(g, asked.prepared, {"Tent", {400000, 6000000}});
  ASSERT_FALSE(out);
  EXPECT_EQ(out.error().what,
            "safe: Tent (400000 6000000): expected a place that the ground file holds, easting "
            "480000 to 482000, northing 6050000 to 6052000");
}

}  // namespace
}  // namespace lodeway::route
