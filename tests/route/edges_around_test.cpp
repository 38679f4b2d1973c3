#include "lodeway/route/graph/edges_around.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"

namespace lodeway::route {
namespace {

using earth::GridPoint;

/// Lines that wander about a square of 2 km.
std::vector<mapdata::NetworkEdge> wandering(numeric::Random& random, int count) {
  std::vector<mapdata::NetworkEdge> out(static_cast<std::size_t>(count));
  for (auto& edge : out) {
    GridPoint p{2000 * random.uniform(), 2000 * random.uniform()};
    const int points = 2 + static_cast<int>(8 * random.uniform());
    for (int i = 0; i < points; ++i) {
      edge.points.push_back(p);
      const double turn = 2 * std::numbers::pi * random.uniform();
      p = p + (200 * random.uniform()) * GridPoint{std::cos(turn), std::sin(turn)};
    }
  }
  return out;
}

/// By taking every edge in steps of a metre.
double plain_distance_m(const mapdata::NetworkEdge& edge, GridPoint p) {
  double out = 1e300;
  for (std::size_t i = 1; i < edge.points.size(); ++i) {
    const auto a = edge.points[i - 1], b = edge.points[i];
    const int steps = 1 + static_cast<int>(earth::grid_distance_m(a, b));
    for (int k = 0; k <= steps; ++k)
      out = std::min(out, earth::grid_distance_m(
                              p, a + (static_cast<double>(k) / steps) * (b - a)));
  }
  return out;
}

GridPoint at_along(const mapdata::NetworkEdge& edge, double along_m) {
  for (std::size_t i = 1; i < edge.points.size(); ++i) {
    const auto a = edge.points[i - 1], b = edge.points[i];
    const double length = earth::grid_distance_m(a, b);
    if (along_m <= length) return a + (along_m / length) * (b - a);
    along_m -= length;
  }
  return edge.points.back();
}

// A place taken in steps of a metre lies at most half a metre beside the nearest.
TEST(EdgesAround, EveryEdgeOnceAtItsNearestPlace) {
  numeric::Random random(7);
  const auto edges = wandering(random, 200);
  std::vector<std::uint32_t> some;
  for (std::uint32_t e = 0; e < edges.size(); ++e) {
    if (e % 3 != 0) some.push_back(e);
  }
  std::size_t found = 0;
  for (const double cell : {150.0, 900.0, 1e5}) {
    const EdgesAround index(edges, some, cell);
    for (int trial = 0; trial < 40; ++trial) {
      // also from beside all of them, and from farther than is asked for
      const GridPoint p{5000 * random.uniform() - 1500, 5000 * random.uniform() - 1500};
      const double radius = trial % 10 == 0 ? 1e7 : 900 * random.uniform();
      auto near = index.near(p, radius);
      std::ranges::sort(near, {}, &mapdata::OnNetwork::edge);
      auto one = near.begin();
      for (const auto e : some) {
        const double plain = plain_distance_m(edges[e], p);
        if (one == near.end() || one->edge != e) {
          EXPECT_GT(plain, radius) << e;
          continue;
        }
        EXPECT_LE(one->away_m, plain + 1e-9);
        EXPECT_GE(one->away_m, plain - 0.5);
        EXPECT_LE(one->away_m, radius);
        EXPECT_NEAR(earth::grid_distance_m(p, one->at), one->away_m, 1e-9);
        EXPECT_NEAR(earth::grid_distance_m(at_along(edges[e], one->along_m), one->at), 0, 1e-6);
        ++one;
        ++found;
      }
      EXPECT_EQ(one, near.end());
    }
  }
  EXPECT_GT(found, 1500U);
  EXPECT_TRUE(EdgesAround().near({}, 100).empty());
}

}  // namespace
}  // namespace lodeway::route
