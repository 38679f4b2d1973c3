#include "lodeway/mapdata/network.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {
namespace {

LineFeature line(Kind kind, std::vector<GridPoint> points, std::string name = "") {
  return {{kind, std::move(name)}, std::move(points)};
}
bool all(const LineFeature&) { return true; }

const NetworkNode* node_at(const Network& net, GridPoint p) {
  const auto found = std::ranges::find_if(
      net.nodes(), [&](const NetworkNode& n) { return earth::grid_distance_m(n.at, p) < 1e-6; });
  return found == net.nodes().end() ? nullptr : &*found;
}

// A path crosses a wall between their points; another path ends 1.5 m short of it.
TEST(Network, CrossingsAreNodedAndEndsJoined) {
  const std::vector<LineFeature> lines{line(Kind::path, {{0, 0}, {100, 0}}),
                                       line(Kind::wall, {{40, -50}, {40, 50}}),
                                       line(Kind::path, {{70, 60}, {70, 1.5}})};
  const Network net(lines, all);
  ASSERT_NE(node_at(net, {40, 0}), nullptr);
  EXPECT_EQ(node_at(net, {40, 0})->edges.size(), 4U);
  ASSERT_NE(node_at(net, {70, 0}), nullptr);  // on the path, which does not move
  EXPECT_EQ(node_at(net, {70, 0})->edges.size(), 3U);
  EXPECT_EQ(net.edges().size(), 3U + 2U + 1U);
  double sum = 0;
  for (const auto& e : net.edges()) sum += e.length_m;
  EXPECT_NEAR(sum, 100 + 100 + 60, 1e-9);
}

TEST(Network, BridgesAndTunnelsJoinAtTheirEndsOnly) {
  std::vector<LineFeature> lines{
      line(Kind::path, {{0, 0}, {90, 0}}), line(Kind::path, {{90, 0}, {110, 0}}),
      line(Kind::path, {{110, 0}, {200, 0}}), line(Kind::stream, {{100, -50}, {100, 50}})};
  lines[1].bridge = true;
  const Network net(lines, all);
  EXPECT_EQ(node_at(net, {100, 0}), nullptr);
  ASSERT_EQ(net.overpasses().size(), 1U);
  EXPECT_EQ(net.overpasses()[0].over, 1U);
  EXPECT_EQ(net.overpasses()[0].under, 3U);
  EXPECT_NEAR(net.overpasses()[0].at.east_m, 100, 1e-9);
  EXPECT_EQ(net.edges().size(), 4U);
  EXPECT_TRUE(net.shortest(net.touch({5, 0}, 1), net.touch({195, 0}, 1)).has_value());
  EXPECT_FALSE(net.shortest(net.touch({5, 0}, 1), net.touch({100, 40}, 1)).has_value());
  lines[1].bridge = false;
  lines[3].tunnel = true;  // a culvert
  const Network culvert(lines, all);
  ASSERT_EQ(culvert.overpasses().size(), 1U);
  EXPECT_EQ(culvert.overpasses()[0].under, 3U);
}

// Two lines on the same points for a while: nodes where that begins and ends, none between.
TEST(Network, LinesOnTheSamePoints) {
  const std::vector<LineFeature> lines{
      line(Kind::path, {{0, 0}, {50, 0}, {100, 0}, {150, 0}, {200, 0}}),
      line(Kind::wall, {{50, 80}, {50, 0}, {100, 0}, {150, 0}, {150, 80}})};
  const Network net(lines, all);
  EXPECT_NE(node_at(net, {50, 0}), nullptr);
  EXPECT_NE(node_at(net, {150, 0}), nullptr);
  EXPECT_EQ(node_at(net, {100, 0}), nullptr);
  EXPECT_EQ(net.edges().size(), 6U);
}

TEST(Network, RingsAndLinesThatComeBack) {
  const std::vector<LineFeature> ring{
      line(Kind::wall, {{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}})};
  const Network net(ring, all);
  ASSERT_EQ(net.edges().size(), 1U);
  EXPECT_EQ(net.edges()[0].from, net.edges()[0].to);
  EXPECT_NEAR(net.edges()[0].length_m, 40, 1e-9);
  EXPECT_EQ(net.nodes()[net.edges()[0].from].edges.size(), 2U);
  // A loop at the end of a path: out 100 m, round, and back to the point (100, 0).
  const std::vector<LineFeature> loop{
      line(Kind::path, {{0, 0}, {100, 0}, {120, 20}, {140, 0}, {120, -20}, {100, 0}})};
  const Network looped(loop, all);
  EXPECT_EQ(looped.edges().size(), 2U);
  const auto walk = looped.shortest(looped.touch({0, 0}, 1), looped.touch({120, -20}, 1));
  ASSERT_TRUE(walk);
  EXPECT_NEAR(walk->length_m, 100 + std::hypot(20, 20), 1e-9);
}

TEST(Network, ChainsRunThroughWhatOnlyCrosses) {
  const std::vector<LineFeature> lines{
      line(Kind::path, {{0, 0}, {100, 0}}), line(Kind::path, {{100, 0}, {200, 0}}),
      line(Kind::path, {{200, 0}, {300, 0}}), line(Kind::path, {{200, 0}, {200, 90}}),
      line(Kind::wall, {{50, -50}, {50, 50}}, "Long Wall")};
  const Network net(lines, all);
  const auto chains = net.chains(lines);
  std::vector<double> lengths;
  std::size_t edges = 0;
  for (const auto& c : chains) {
    lengths.push_back(length_m(net.points_of(c)));
    edges += c.edges.size();
    ASSERT_EQ(c.nodes.size(), c.edges.size() + 1);
  }
  std::ranges::sort(lengths);
  ASSERT_EQ(lengths.size(), 4U);  // 0-200, 200-300, the branch, the wall
  EXPECT_NEAR(lengths[0], 90, 1e-9);
  EXPECT_NEAR(lengths[1], 100, 1e-9);
  EXPECT_NEAR(lengths[2], 100, 1e-9);
  EXPECT_NEAR(lengths[3], 200, 1e-9);
  EXPECT_EQ(edges, net.edges().size());
}

// Along the stream is 10 m shorter than staying on the path, but it is a change of lines and back.
TEST(Network, AWalkKeepsToItsLine) {
  const std::vector<LineFeature> lines{
      line(Kind::path, {{0, 0}, {50, 0}, {100, 25}, {150, 0}, {200, 0}}),
      line(Kind::stream, {{50, 0}, {150, 0}})};
  const Network net(lines, all);
  const auto kept = net.shortest(net.touch({0, 0}, 1), net.touch({200, 0}, 1));
  ASSERT_TRUE(kept);
  EXPECT_NEAR(kept->length_m, 100 + 2 * std::hypot(50, 25), 1e-9);
  EXPECT_TRUE(std::ranges::all_of(kept->lines, [](auto l) { return l == 0; }));
  EXPECT_EQ(kept->lines.size() + 1, kept->points.size());
  const auto free = net.shortest(net.touch({0, 0}, 1), net.touch({200, 0}, 1), 0);
  ASSERT_TRUE(free);
  EXPECT_NEAR(free->length_m, 200, 1e-9);
  EXPECT_FALSE(net.shortest(net.touch({20, 0}, 1), net.touch({20, 0}, 1)));
}

TEST(SharpBends, TheSharpestPlaceOnly) {
  // A right angle rounded off over 20 m, right-handed, and a slight turn that is none.
  const std::vector<GridPoint> bent{{0, 0}, {0, 100}, {6, 114}, {20, 120}, {120, 120}, {220, 140}};
  const auto bends = sharp_bends(bent);
  ASSERT_EQ(bends.size(), 1U);
  EXPECT_EQ(bends[0].at, (GridPoint{6, 114}));
  EXPECT_GT(bends[0].turn_deg, 50);
  auto mirrored = bent;
  for (auto& p : mirrored) p.east_m = -p.east_m;
  EXPECT_NEAR(sharp_bends(mirrored)[0].turn_deg, -bends[0].turn_deg, 1e-9);
}

/// Uniform in [low, high), the same spread in every trial (rapidcheck's first ones are small).
template <class T>
T any(T low, T high) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange<T>(low, high));
}

/// Lines on a coarse lattice, so that touching and overlapping are the rule.
std::vector<LineFeature> any_lines() {
  std::vector<LineFeature> out(any<std::size_t>(1, 7));
  for (auto& l : out) {
    l.label.kind = *rc::gen::element(Kind::path, Kind::wall);
    const auto n = any<std::size_t>(2, 6);
    while (l.points.size() < n) {
      const GridPoint p{20.0 * any<int>(0, 6), 20.0 * any<int>(0, 6)};
      if (l.points.empty() || !(l.points.back() == p)) l.points.push_back(p);
    }
  }
  return out;
}

RC_GTEST_PROP(NetworkLaws, EveryMetreOfEveryLineIsKeptWhereItWas, ()) {
  const auto lines = any_lines();
  const Network net(lines, all);
  std::vector<LineFeature> edges;
  for (const auto& e : net.edges()) {
    RC_ASSERT(e.points.size() >= 2);
    RC_ASSERT(net.nodes()[e.from].at == e.points.front());
    RC_ASSERT(net.nodes()[e.to].at == e.points.back());
    edges.push_back({{}, e.points});
  }
  const LineIndex now(edges), before(lines);
  constexpr double moved = 2 * 2.0 + 0.01;  // as the header says
  const auto within = [&](const std::vector<GridPoint>& of, const LineIndex& index) {
    const Measured m(of);
    for (int k = 0; k <= 40; ++k)
      RC_ASSERT(!index.near(m.at(m.length_m() * k / 40), moved).empty());
  };
  for (const auto& l : lines) within(l.points, now);
  for (const auto& e : edges) within(e.points, before);
}

// After noding, edges meet at nodes only: every crossing of two is at most a snap from a node.
RC_GTEST_PROP(NetworkLaws, NothingCrossesBetweenNodes, ()) {
  const auto lines = any_lines();
  for (const auto& l : lines) {
    RC_LOG() << "line";
    for (const auto p : l.points) RC_LOG() << " (" << p.east_m << ", " << p.north_m << ")";
  }
  const Network net(lines, all);
  std::vector<LineFeature> edges;
  for (const auto& e : net.edges()) edges.push_back({{}, e.points});
  const LineIndex index(edges);
  for (const auto& e : edges) {
    for (std::size_t i = 0; i + 1 < e.points.size(); ++i) {
      for (const auto& c : index.crossings(e.points[i], e.points[i + 1])) {
        const auto& met = edges[c.ref.line];
        if (&met == &e) continue;
        const bool vertex = std::ranges::any_of(met.points, [&](GridPoint p) {
          return earth::grid_distance_m(p, c.at) <
                 0.01;  // they run together through a shared point
        });
        const bool node = std::ranges::any_of(net.nodes(), [&](const NetworkNode& n) {
          return earth::grid_distance_m(n.at, c.at) <= 4.01;
        });
        RC_LOG() << "met at " << c.at.east_m << ", " << c.at.north_m;
        RC_ASSERT(node || vertex);
      }
    }
  }
}

RC_GTEST_PROP(NetworkLaws, EveryEdgeIsInOneChain, ()) {
  const auto lines = any_lines();
  const Network net(lines, all);
  std::vector<int> seen(net.edges().size(), 0);
  for (const auto& c : net.chains(lines)) {
    for (std::size_t i = 0; i < c.edges.size(); ++i) {
      ++seen[c.edges[i]];
      const auto& e = net.edges()[c.edges[i]];
      RC_ASSERT(c.nodes[i] == (c.backwards[i] ? e.to : e.from));
      RC_ASSERT(c.nodes[i + 1] == (c.backwards[i] ? e.from : e.to));
    }
  }
  for (const int n : seen) RC_ASSERT(n == 1);
}

// Against relaxing every edge until nothing changes (Bellman 1958), without cost of changes.
RC_GTEST_PROP(NetworkLaws, ShortestIsThatOfPlainRelaxation, ()) {
  const auto lines = any_lines();
  const Network net(lines, all);
  RC_PRE(!net.edges().empty());
  const auto a = any<std::uint32_t>(0, static_cast<std::uint32_t>(net.edges().size()));
  const auto b = any<std::uint32_t>(0, static_cast<std::uint32_t>(net.edges().size()));
  const auto &ea = net.edges()[a], &eb = net.edges()[b];
  const OnNetwork from{a, 0.25 * ea.length_m, Measured(ea.points).at(0.25 * ea.length_m), 0},
      to{b, 0.6 * eb.length_m, Measured(eb.points).at(0.6 * eb.length_m), 0};
  constexpr double never = std::numeric_limits<double>::infinity();
  std::vector<double> d(net.nodes().size(), never);
  d[ea.from] = from.along_m;
  d[ea.to] = std::min(d[ea.to], ea.length_m - from.along_m);
  for (std::size_t round = 0; round < d.size(); ++round) {
    for (const auto& e : net.edges()) {
      d[e.to] = std::min(d[e.to], d[e.from] + e.length_m);
      d[e.from] = std::min(d[e.from], d[e.to] + e.length_m);
    }
  }
  double judge = std::min(d[eb.from] + to.along_m, d[eb.to] + eb.length_m - to.along_m);
  if (a == b) judge = std::min(judge, std::abs(from.along_m - to.along_m));
  const auto walk = net.shortest({&from, 1}, {&to, 1}, 0);
  RC_ASSERT(walk.has_value() == std::isfinite(judge));
  if (!walk) return;
  RC_ASSERT(std::abs(walk->length_m - judge) < 1e-6);
  RC_ASSERT(earth::grid_distance_m(walk->points.front(), from.at) < 1e-9);
  RC_ASSERT(earth::grid_distance_m(walk->points.back(), to.at) < 1e-9);
  RC_ASSERT(walk->lines.size() + 1 == walk->points.size());
}

}  // namespace
}  // namespace lodeway::mapdata
