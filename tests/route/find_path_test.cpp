#include "lodeway/route/field/find_path.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "route/made_ground.hpp"
#include "route/plain_dijkstra.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;

Result<RawPath> find(const walking::Ground& g, earth::GridPoint from, earth::GridPoint to,
                     const walking::Request& request = {}) {
  const Prepared prepared(g, request);
  return find_path(g, prepared, {"start", from}, {"end", to});
}

double distance_to_line(const std::vector<earth::GridPoint>& line, earth::GridPoint p) {
  double least = 1e300;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const auto d = line[i] - line[i - 1], q = p - line[i - 1];
    const double t = std::clamp((q.east_m * d.east_m + q.north_m * d.north_m) /
                                    (d.east_m * d.east_m + d.north_m * d.north_m),
                                0.0, 1.0);
    least = std::min(least, earth::grid_distance_m(q, t * d));
  }
  return least;
}

/// Does the path pass within `near_m` of a place?
bool passes(const RawPath& path, earth::GridPoint p, double near_m) {
  return std::ranges::any_of(path.pieces, [&](const Piece& piece) {
    return piece.points.size() > 1 && distance_to_line(piece.points, p) <= near_m;
  });
}

void expect_fault(const Result<RawPath>& got, FaultCode code, const std::string& part) {
  ASSERT_FALSE(got);
  EXPECT_EQ(got.error().code, code);
  EXPECT_NE(got.error().what.find(part), std::string::npos) << got.error().what;
}

TEST(FindPath, PlacesWhereNobodyStands) {
  auto g = made::ground();
  made::box(g, Kind::lake, at(500, 500), at(900, 900), "Mirk Tarn");
  g.elevation[20, 20] = NAN;
  expect_fault(find(g, at(700, 700), at(100, 100)), FaultCode::bad_input, "water (Mirk Tarn)");
  expect_fault(find(g, at(100, 100), at(700, 700)), FaultCode::bad_input, "end (480700 6050700)");
  expect_fault(find(g, at(-50, 100), at(100, 100)), FaultCode::outside_ground, "start");
  expect_fault(find(g, at(205, 1795), at(100, 100)), FaultCode::bad_input, "unknown height");
  expect_fault(find(g, at(100, 100), at(100.3, 100)), FaultCode::bad_input, "the same");
}

TEST(FindPath, NoWaySaysWhereItStopsAndWhy) {
  auto g = made::ground();
  made::line(g, Kind::river, {at(1000, -10), at(1000, 2010)}, "Brindle");
  const auto got = find(g, at(500, 1000), at(1400, 1000));
  expect_fault(got, FaultCode::no_way, "a river without a crossing (Brindle)");
  // The river runs on an edge of cells and bars those to its east: the last free one is centred 5 m
  // before it, 405 m before the end.
  expect_fault(got, FaultCode::no_way, "405 m before the end");

  walking::Request request;
  request.avoid.push_back(
      {"the butts", {at(1300, 900), at(1500, 900), at(1500, 1100), at(1300, 1100)}});
  expect_fault(find(made::ground(), at(500, 1000), at(1400, 1000), request), FaultCode::bad_input,
               "an area to avoid (the butts)");
  request.avoid[0].ring = {at(700, -10), at(800, -10), at(800, 2010), at(700, 2010)};
  expect_fault(find(made::ground(), at(500, 1000), at(1400, 1000), request), FaultCode::no_way,
               "an area to avoid (the butts)");
}

TEST(FindPath, AcrossTheRiverByTheBridgeOnly) {
  auto g = made::ground();
  made::line(g, Kind::river, {at(1000, -10), at(1000, 2010)}, "Brindle");
  g.map.points.push_back({{Kind::bridge, ""}, at(1000, 1500), NAN});
  const auto got = find(g, at(500, 500), at(1500, 500));
  ASSERT_TRUE(got) << got.error().what;
  // 25 m around the bridge are open, in cells of 10 m.
  EXPECT_TRUE(passes(*got, at(1000, 1500), 40));
  const double straight = 2 * std::hypot(500, 1000);
  double length = 0;
  for (const auto& piece : got->pieces) length += mapdata::length_m(piece.points);
  EXPECT_GT(length, straight - 80);
  EXPECT_LT(length, 1.0275 * straight + 30);
}

// A path that runs 4 m beside the river shares its cells. It must not let anyone step over.
TEST(FindPath, APathBesideARiverIsNoBridge) {
  auto g = made::ground();
  made::line(g, Kind::river, {at(1003, -10), at(1003, 2010)});
  made::line(g, Kind::path, {at(999, 0), at(999, 1000), at(1002, 1010), at(1002, 1990)});
  expect_fault(find(g, at(990, 500), at(1400, 500)), FaultCode::no_way, "river");
  made::line(g, Kind::path, {at(1002, 1010), at(1100, 1010)});
  const auto over = find(g, at(990, 500), at(1400, 500));
  ASSERT_TRUE(over) << over.error().what;  // where the map draws a path over it, people cross
  EXPECT_TRUE(passes(*over, at(1003, 1010), 0.01));
}

TEST(FindPath, APathIsFollowedOnItsOwnLine) {
  auto g = made::ground();
  std::vector<earth::GridPoint> winding;
  for (int k = 0; k <= 180; ++k)
    winding.push_back(at(100 + 10.0 * k, 1000 + 60 * std::sin(k * 0.1)));
  made::line(g, Kind::path, winding);
  g.kinds[Kind::other].speed_factor = 1;
  made::box(g, Kind::marsh, at(0, 0), at(2000, 2000));
  g.kinds[Kind::marsh].speed_factor = 0.3;
  const auto got = find(g, winding.front(), winding.back());
  ASSERT_TRUE(got) << got.error().what;
  double length = 0;
  for (const auto& piece : got->pieces) {
    length += mapdata::length_m(piece.points);
    for (const auto& p : piece.points) EXPECT_LT(distance_to_line(winding, p), 0.01);
  }
  EXPECT_NEAR(length, mapdata::length_m(winding), 0.1);
  // 4 km/h on the level, a path's speed: the line's own length, no staircase.
  EXPECT_NEAR(got->seconds, mapdata::length_m(winding) * 0.9, 0.5);
}

TEST(FindPath, SteepGroundIsCrossedOnAPathOnly) {
  auto g = made::ground();
  for (int r = 0; r < 200; ++r) {  // a scarp of 45 degrees from south to north, 100 m high
    for (int c = 100; c < 200; ++c)
      g.elevation[r, c] = 200.0F + 10.0F * static_cast<float>(std::min(c - 100, 10));
  }
  expect_fault(find(g, at(500, 1000), at(1500, 1000)), FaultCode::no_way, "slope limit");
  made::line(g, Kind::path, {at(900, 300), at(1200, 300)});
  const auto got = find(g, at(500, 1000), at(1500, 1000));
  ASSERT_TRUE(got) << got.error().what;
  EXPECT_TRUE(passes(*got, at(1050, 300), 0.01));
  const Prepared prepared(g, {});
  for (const auto& piece : got->pieces) {
    if (piece.line != no_parent) continue;
    for (std::size_t i = 1; i < piece.points.size(); ++i) {
      EXPECT_EQ(prepared.cover.first_bar(piece.points[i - 1], piece.points[i]).bar,
                walking::Bar::none);
    }
  }
}

TEST(FindPath, ATunnelIsEnteredAtItsEnds) {
  auto g = made::ground();
  made::line(g, Kind::river, {at(1000, -10), at(1000, 2010)});
  made::line(g, Kind::track, {at(400, 600), at(1600, 600)});
  g.map.lines.back().tunnel = true;
  const auto got = find(g, at(900, 605), at(1100, 605));
  ASSERT_TRUE(got) << got.error().what;
  EXPECT_TRUE(passes(*got, at(400, 600), 1));
  EXPECT_TRUE(passes(*got, at(1600, 600), 1));
}

// Heath at 0.7 on both sides of a straight wall: with less attention beside it the wall is
// followed.
TEST(FindPath, AWallThatGoesThereLeads) {
  auto g = made::ground();
  made::line(g, Kind::wall, {at(200, 1000), at(1000, 1050), at(1800, 1000)}, "Long Wall");
  const auto got = find(g, at(150, 1000), at(1850, 1000));
  ASSERT_TRUE(got) << got.error().what;
  double along = 0;
  for (const auto& piece : got->pieces)
    along += piece.line == 0 ? mapdata::length_m(piece.points) : 0;
  EXPECT_GT(along, 1400);
  // A bog over a part of it is gone round, or at least the wall gives no speed of its own.
  made::box(g, Kind::lake, at(600, 950), at(800, 1150), "Tarn");
  const auto round = find(g, at(150, 1000), at(1850, 1000));
  ASSERT_TRUE(round) << round.error().what;
  EXPECT_FALSE(passes(*round, at(700, 1030), 40));
}

// The path's cost is the field's value: the judge is the plain heap over the same edges.
TEST(FindPath, CostIsTheFieldsValue) {
  auto g = made::ground();
  for (int r = 0; r < 200; ++r) {
    for (int c = 0; c < 200; ++c) {
      g.elevation[r, c] = static_cast<float>(300 + 40 * std::sin(r * 0.1) * std::cos(c * 0.07));
    }
  }
  made::line(g, Kind::path, {at(300, 300), at(700, 900), at(1500, 1000), at(1700, 1650)});
  made::box(g, Kind::lake, at(600, 300), at(1400, 800));
  const auto start = at(205, 205), end = at(1795, 1705);
  for (const auto model : {walking::TimeModel::naismith_langmuir, walking::TimeModel::tobler,
                           walking::TimeModel::din_33466}) {
    walking::Request request;
    request.party.model = model;
    const Prepared p(g, request);
    const auto got = find_path(g, p, {"start", start}, {"end", end});
    ASSERT_TRUE(got) << got.error().what;
    const auto cell = [&](earth::GridPoint q) {
      const auto [r, c] = p.cost.frame.cell_of(q);
      return p.cost.index(r, c);
    };
    const Seed seed{cell(start), 0};
    const auto plain =
        plain_dijkstra(p.cost, p.pace, &p.paths.graph, {&seed, 1}, Direction::from_seeds);
    // Start and end are cell centres; standing there counts 0.1 m at each end.
    EXPECT_NEAR(got->seconds, static_cast<double>(plain[cell(end)]), 0.5);
    EXPECT_EQ(got->pieces.front().points.front(), start);
    EXPECT_EQ(got->pieces.back().points.back(), end);
    for (std::size_t i = 1; i < got->pieces.size(); ++i) {
      EXPECT_EQ(got->pieces[i - 1].points.back(), got->pieces[i].points.front());
    }
  }
}

}  // namespace
}  // namespace lodeway::route
