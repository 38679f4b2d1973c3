#include "lodeway/route/field/field.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"
#include "lodeway/walking/time_model.hpp"
#include "route/plain_dijkstra.hpp"

namespace lodeway::route {
namespace {

/// Rolling ground with some barred cells and patches of slow cover.
CostGround random_ground(numeric::Random& random, int rows, int cols, double barred_share) {
  CostGround g;
  g.frame = {0, 10.0 * rows, 10, rows, cols};
  g.stride = cols + 4;
  g.height.assign(static_cast<std::size_t>((rows + 4) * (cols + 4)), 0);
  g.slowness.assign(g.height.size(), barred_slowness);
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < cols; ++c) {
      const auto i = g.index(r, c);
      g.height[i] =
          static_cast<float>(60 * std::sin(r * 0.2) * std::cos(c * 0.15) + 8 * random.uniform());
      if (random.uniform() >= barred_share) g.slowness[i] = random.uniform() < 0.3 ? 1.7F : 1.0F;
    }
  }
  return g;
}

const walking::TimeModel models[] = {
    walking::TimeModel::naismith_langmuir, walking::TimeModel::tobler, walking::TimeModel::swiss,
    walking::TimeModel::din_33466, walking::TimeModel::irmischer_clarke};

// The plain heap over the same edges is the judge. Both keep, of all ways, the least sum in 32
// bits; the two add a move's parts in the same order, so they agree to the last bit but for moves
// walked backwards.
TEST(Field, EqualsAPlainHeap) {
  numeric::Random random(11);
  for (const auto model : models) {
    for (const double barred : {0.0, 0.25}) {
      const auto g = random_ground(random, 60, 70, barred);
      const PaceTable pace(model, 4.5);
      const Seed seed{g.index(30, 35), 0};
      for (const auto direction : {Direction::from_seeds, Direction::to_seeds}) {
        const auto fast = solve_field(g, pace, nullptr, {&seed, 1}, direction);
        const auto plain = plain_dijkstra(g, pace, nullptr, {&seed, 1}, direction);
        for (std::size_t i = 0; i < plain.size(); ++i)
          ASSERT_NEAR(fast.seconds[i], plain[i], 0.01F) << i;
      }
    }
  }
}

TEST(Field, WithLinesToo) {
  numeric::Random random(12);
  auto g = random_ground(random, 50, 50, 0.1);
  const PaceTable pace(walking::TimeModel::tobler, 5);
  LineGraph lines;
  lines.first = static_cast<std::uint32_t>(g.height.size());
  for (std::uint32_t k = 0; k < 40;
       ++k) {  // a fast line along row 25, its steps far below a bucket's width
    lines.at.push_back(g.frame.centre(25, static_cast<int>(k) + 5));
    lines.start.push_back(static_cast<std::uint32_t>(lines.edges.size()));
    const auto cell = g.index(25, static_cast<int>(k) + 5);
    if (k > 0) lines.edges.push_back({lines.first + k - 1, 0.9F, 1.1F});
    if (k < 39) lines.edges.push_back({lines.first + k + 1, 1.1F, 0.9F});
    lines.edges.push_back({cell, 0.3F, 0.3F});
    lines.joined_cells.push_back(cell);
    lines.joined_start.push_back(static_cast<std::uint32_t>(lines.joined_edges.size()));
    lines.joined_edges.push_back({lines.first + k, 0.3F, 0.3F});
  }
  lines.start.push_back(static_cast<std::uint32_t>(lines.edges.size()));
  lines.joined_start.push_back(static_cast<std::uint32_t>(lines.joined_edges.size()));
  const Seed seed{g.index(3, 3), 0};
  for (const auto direction : {Direction::from_seeds, Direction::to_seeds}) {
    const auto fast = solve_field(g, pace, &lines, {&seed, 1}, direction);
    const auto plain = plain_dijkstra(g, pace, &lines, {&seed, 1}, direction);
    for (std::size_t i = 0; i < plain.size(); ++i)
      ASSERT_NEAR(fast.seconds[i], plain[i], 0.01F) << i;
  }
}

TEST(Field, BarringNeverShortens) {
  numeric::Random random(13);
  auto g = random_ground(random, 40, 40, 0.1);
  const PaceTable pace(walking::TimeModel::naismith_langmuir, 4);
  const Seed seed{g.index(20, 20), 0};
  const auto before = solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds);
  for (int k = 0; k < 100; ++k) {
    const int r = static_cast<int>(40 * random.uniform()),
              c = static_cast<int>(40 * random.uniform());
    if (r != 20 || c != 20) g.slowness[g.index(r, c)] = barred_slowness;
  }
  const auto after = solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds);
  for (std::size_t i = 0; i < before.seconds.size(); ++i)
    ASSERT_GE(after.seconds[i], before.seconds[i]);
}

// On flat ground the way is at most 2.749 % longer than the straight line, and never shorter
// (sixteen neighbours, 1 / cos(gap / 2)).
TEST(Field, ElongationOfSixteenNeighbours) {
  CostGround g;
  g.frame = {0, 1010, 10, 101, 101};
  g.stride = 105;
  g.height.assign(105 * 105, 0);
  g.slowness.assign(105 * 105, barred_slowness);
  for (int r = 0; r < 101; ++r) {
    for (int c = 0; c < 101; ++c) g.slowness[g.index(r, c)] = 1;
  }
  const PaceTable pace(walking::TimeModel::naismith_langmuir, 3.6);
  const Seed seed{g.index(50, 50), 0};
  const auto f = solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds);
  double worst = 0;
  for (int r = 0; r < 101; ++r) {
    for (int c = 0; c < 101; ++c) {
      const double straight = 10 * std::hypot(r - 50, c - 50);
      if (straight < 100) continue;
      const double ratio = static_cast<double>(f.seconds[g.index(r, c)]) / straight;
      EXPECT_GT(ratio, 1 - 1e-5);
      worst = std::max(worst, ratio);
    }
  }
  EXPECT_NEAR(worst, 1.027486, 1e-4);
}

TEST(Field, TraceAddsUpAndTargetsAreExact) {
  numeric::Random random(14);
  const auto g = random_ground(random, 80, 80, 0.15);
  const PaceTable pace(walking::TimeModel::swiss, 4);
  const Seed seed{g.index(5, 5), 0};
  const std::uint32_t target = g.index(70, 66);
  const auto all = solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds);
  const auto some = solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds, {&target, 1});
  ASSERT_LT(all.seconds[target], unreached_s) << "this draw, the same each time, leaves the target open";
  EXPECT_EQ(all.seconds[target], some.seconds[target]);
  const auto way = trace(all, target);
  ASSERT_EQ(way.front(), seed.node);
  double sum = 0;
  for (std::size_t i = 1; i < way.size(); ++i) {
    float least = unreached_s;
    for (int m = 0; m < move_count; ++m) {
      if (static_cast<int>(way[i - 1]) + moves()[static_cast<std::size_t>(m)].row * g.stride +
              moves()[static_cast<std::size_t>(m)].col ==
          static_cast<int>(way[i])) {
        least = move_s(g, pace, way[i - 1], m);
      }
    }
    sum += static_cast<double>(least);
  }
  EXPECT_NEAR(sum, static_cast<double>(all.seconds[target]), 0.01);
}

// The table is the time model's pace, uphill and downhill, on its own steps of slope.
TEST(PaceTable, IsTheModelsPace) {
  using walking::TimeModel;
  for (const auto model : {TimeModel::naismith_langmuir, TimeModel::din_33466, TimeModel::tobler,
                           TimeModel::swiss, TimeModel::irmischer_clarke}) {
    const PaceTable pace(model, 4);
    for (const double slope : {-0.5, -0.25, 0.0, 0.25, 0.5}) {
      EXPECT_NEAR(pace.step_s(100, static_cast<float>(100 * slope), 1),
                  100 * walking::pace_s_per_m(model, slope, true, 4, 1), 0.01)
          << static_cast<int>(model) << " " << slope;
    }
  }
}

}  // namespace
}  // namespace lodeway::route
