// The field on real relief: against SciPy, against the plain heap, and by its laws.
#include <algorithm>
#include <cmath>
#include <utility>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"
#include "lodeway/route/field/field.hpp"
#include "route/plain_dijkstra.hpp"
#include "support/support.hpp"

namespace lodeway::route {
namespace {

constexpr int side = 60;
const auto all_models = {walking::TimeModel::naismith_langmuir, walking::TimeModel::tobler,
                         walking::TimeModel::swiss, walking::TimeModel::din_33466,
                         walking::TimeModel::irmischer_clarke};

/// heights.csv with the slow and the barred cells that tests/published/route/make_values has.
CostGround real_ground() {
  const auto heights = support::read_table("route/heights.csv");
  CostGround g;
  g.frame = {0, 30.0 * side, 30, side, side};
  g.stride = side + 4;
  g.height.assign(static_cast<std::size_t>((side + 4) * (side + 4)), 0);
  g.slowness.assign(g.height.size(), barred_slowness);
  for (int r = 0; r < side; ++r) {
    for (int c = 0; c < side; ++c) {
      const auto i = g.index(r, c);
      g.height[i] =
          static_cast<float>(heights[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)]);
      if ((7 * r + 13 * c) % 11 != 0) g.slowness[i] = (r / 8 + c / 8) % 2 == 1 ? 1 / 0.6F : 1.0F;
    }
  }
  return g;
}

// SciPy 1.10.1's dijkstra over edges made in Python from Tobler's formula. Ours looks the pace up
// in steps of 1/2048 of slope: at most 3.5 / 4096 = 0.09 % a step, and by chance up or down.
TEST(FieldPublished, EqualsSciPy) {
  const auto g = real_ground();
  const PaceTable pace(walking::TimeModel::tobler, 4);
  const Seed seed{g.index(8, 11), 0};
  for (const auto& [name, direction] : {std::pair{"route/tobler_from.csv", Direction::from_seeds},
                                        std::pair{"route/tobler_to.csv", Direction::to_seeds}}) {
    const auto scipy = support::read_table(name);
    ASSERT_EQ(scipy.size(), static_cast<std::size_t>(side));
    const auto ours = solve_field(g, pace, nullptr, {&seed, 1}, direction);
    int compared = 0;
    for (int r = 0; r < side; ++r) {
      for (int c = 0; c < side; ++c) {
        const double want = scipy[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)];
        const auto got = static_cast<double>(ours.seconds[g.index(r, c)]);
        if (want < 0) {
          EXPECT_GE(got, static_cast<double>(unreached_s));
          continue;
        }
        EXPECT_NEAR(got, want, 0.5) << name << " " << r << " " << c;
        ++compared;
      }
    }
    EXPECT_GT(compared, 3000);
  }
}

TEST(FieldPublished, EqualsAPlainHeapOnRealRelief) {
  const auto g = real_ground();
  for (const auto model : all_models) {
    const PaceTable pace(model, 4);
    const Seed seeds[] = {{g.index(30, 32), 0}, {g.index(3, 50), 700}};
    for (const auto direction : {Direction::from_seeds, Direction::to_seeds}) {
      const auto fast = solve_field(g, pace, nullptr, seeds, direction);
      const auto plain = plain_dijkstra(g, pace, nullptr, seeds, direction);
      for (std::size_t i = 0; i < plain.size(); ++i) ASSERT_NEAR(fast.seconds[i], plain[i], 0.01F);
    }
  }
}

// From a to b is the same number whether the field starts at a or is asked towards b.
TEST(FieldLaws, ForwardAndBackwardMeet) {
  const auto g = real_ground();
  numeric::Random random(5);
  for (const auto model : all_models) {
    const PaceTable pace(model, 4);
    for (int k = 0; k < 5; ++k) {
      const auto any = [&] { return static_cast<int>(side * random.uniform()); };
      const Seed a{g.index(any(), any()), 0}, b{g.index(any(), any()), 0};
      const auto on = solve_field(g, pace, nullptr, {&a, 1}, Direction::from_seeds);
      const auto back = solve_field(g, pace, nullptr, {&b, 1}, Direction::to_seeds);
      EXPECT_NEAR(on.seconds[b.node], back.seconds[a.node], 0.01F);
    }
  }
}

// Where up and down cost the same (level ground), there and back take the same time.
TEST(FieldLaws, ASymmetricModelReversed) {
  auto g = real_ground();
  std::ranges::fill(g.height, 0.0F);
  const PaceTable pace(walking::TimeModel::tobler, 4);
  const Seed seed{g.index(20, 20), 0};
  const auto on = solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds);
  const auto back = solve_field(g, pace, nullptr, {&seed, 1}, Direction::to_seeds);
  for (std::size_t i = 0; i < on.seconds.size(); ++i)
    ASSERT_NEAR(on.seconds[i], back.seconds[i], 0.01F);
}

TEST(FieldLaws, NeverUnderTheStraightLineAtTheBestPace) {
  const auto g = real_ground();
  for (const auto model : all_models) {
    const PaceTable pace(model, 4);
    const Seed seed{g.index(20, 20), 0};
    const auto f = solve_field(g, pace, nullptr, {&seed, 1}, Direction::from_seeds);
    for (int r = 0; r < side; ++r) {
      for (int c = 0; c < side; ++c) {
        const double least =
            30 * std::hypot(r - 20, c - 20) * static_cast<double>(pace.cheapest_s_per_m());
        ASSERT_GE(static_cast<double>(f.seconds[g.index(r, c)]), least * (1 - 1e-5));
      }
    }
  }
}

// A way over two others is never quicker than the way itself.
TEST(FieldLaws, Triangle) {
  const auto g = real_ground();
  const PaceTable pace(walking::TimeModel::swiss, 4);
  const Seed a{g.index(5, 5), 0}, b{g.index(40, 20), 0};
  const auto from_a = solve_field(g, pace, nullptr, {&a, 1}, Direction::from_seeds);
  const auto from_b = solve_field(g, pace, nullptr, {&b, 1}, Direction::from_seeds);
  for (std::size_t i = 0; i < from_a.seconds.size(); ++i) {
    if (from_a.seconds[i] >= unreached_s) continue;
    ASSERT_LE(from_a.seconds[i], from_a.seconds[b.node] + from_b.seconds[i] + 0.01F);
  }
}

}  // namespace
}  // namespace lodeway::route
