#include "lodeway/reckoning/rehearsal/walk_kernel.hpp"

#include <gtest/gtest.h>
#include <hwy/targets.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "lodeway/numeric/normal.hpp"
#include "made_ground.hpp"

namespace walk_kernel_test {
using namespace lodeway;
using namespace lodeway::reckoning;

/// Running mean and variance (Welford 1962, Technometrics 4:419-420).
class Moments {
 public:
  void add(double x) {
    ++count_;
    const double d = x - mean_;
    mean_ += d / static_cast<double>(count_);
    sum_ += d * (x - mean_);
  }
  [[nodiscard]] double mean() const { return mean_; }
  /// Of the population from the sample (n - 1); 0 for fewer than two.
  [[nodiscard]] double variance() const {
    return count_ < 2 ? 0.0 : sum_ / static_cast<double>(count_ - 1);
  }

 private:
  std::size_t count_ = 0;
  double mean_ = 0, sum_ = 0;
};

std::vector<float> level_pace() {
  std::vector<float> pace(pace_entries);
  for (int i = 0; i < pace_entries; ++i)
    pace[static_cast<std::size_t>(i)] = static_cast<float>(0.9 + std::abs(pace_slope(i)));
  return pace;
}

Walkers start(std::size_t n, const terrain::Frame& f, double bearing) {
  Walkers w(n);
  for (std::size_t i = 0; i < n; ++i) {
    w.seed(i, 5, i);
    w.col[i] = static_cast<float>(f.col_of({0, 0}));
    w.row[i] = static_cast<float>(f.row_of({0, 0}));
    w.east[i] = static_cast<float>(std::sin(bearing));
    w.north[i] = static_cast<float>(std::cos(bearing));
  }
  return w;
}

// Library sine and logarithm in double precision, the same streams: places within 1e-3 of a cell.
TEST(WalkKernel, IsThePlainWalk) {
  const auto ground = made::ground();
  const auto pace = level_pace();
  const WalkPlan plan{100, 8, 3, 0.06F, 1.5F, pace};
  Walkers a = start(1000, ground.elevation.frame(), 0.7), b = a;
  Trace ta, tb;
  walk(ground.elevation, plan, a, &ta);
  walk_plainly(ground.elevation, plan, b, &tb);
  for (std::size_t i = 0; i < 101 * a.padded; ++i) {
    ASSERT_NEAR(ta.col[i], tb.col[i], 1e-3) << i;
    ASSERT_NEAR(ta.row[i], tb.row[i], 1e-3) << i;
    ASSERT_NEAR(ta.seconds[i], tb.seconds[i], 0.02 * (1 + static_cast<double>(tb.seconds[i])))
        << i;  // the next entry of the table
  }
}

TEST(WalkKernel, SameBytesOnEveryVectorUnit) {
  const auto ground = made::ground();
  const auto pace = level_pace();
  const WalkPlan plan{60, 10, 2, 0.08F, 1.0F, pace};
  const Walkers begin = start(777, ground.elevation.frame(), 2.1);
  Walkers best = begin;
  walk(ground.elevation, plan, best, nullptr);
  int units = 0;
  for (const auto target : hwy::SupportedAndGeneratedTargets()) {
    hwy::SetSupportedTargetsForTest(target);
    Walkers here = begin;
    walk(ground.elevation, plan, here, nullptr);
    hwy::SetSupportedTargetsForTest(0);
    EXPECT_EQ(std::memcmp(here.col.data(), best.col.data(), best.col.size() * 4), 0);
    EXPECT_EQ(std::memcmp(here.row.data(), best.row.data(), best.row.size() * 4), 0);
    EXPECT_EQ(std::memcmp(here.seconds.data(), best.seconds.data(), best.seconds.size() * 4), 0);
    ++units;
  }
  EXPECT_GE(units, 1);
}

// One sighting of 1000 m at 0.1 rad: sideways 1000 sin(e), and its tails. Normal: Kolmogorov 0.999
// point 1.95.
TEST(WalkKernel, SightingErrorsAreNormal) {
  terrain::Elevation flat(terrain::Frame{-2000, 2000, 20, 200, 200}, 0.0F);
  const auto pace = level_pace();
  const std::size_t n = 200000;
  Walkers w = start(n, flat.frame(), 0);
  walk(flat, {1, 1000, 1, 0.1F, 0, pace}, w, nullptr);
  std::vector<double> z(n);
  Moments moments;
  for (std::size_t i = 0; i < n; ++i) {
    const double east = (static_cast<double>(w.col[i]) - flat.frame().col_of({0, 0})) * 20;
    const double north = -(static_cast<double>(w.row[i]) - flat.frame().row_of({0, 0})) * 20;
    z[i] = std::atan2(east, north) / 0.1;
    moments.add(z[i]);
    EXPECT_NEAR(std::hypot(east, north), 1000, 5e-3);
  }
  EXPECT_NEAR(moments.mean(), 0, 3.5 / std::sqrt(n));
  EXPECT_NEAR(moments.variance(), 1, 3.5 * std::sqrt(2.0 / n));
  std::ranges::sort(z);
  double worst = 0;
  for (std::size_t i = 0; i < n; ++i)
    worst =
        std::max(worst, std::abs(numeric::normal_cdf(z[i]) - (static_cast<double>(i) + 0.5) / n));
  EXPECT_LT(worst * std::sqrt(n), 1.95);
  EXPECT_GT(z.back(), 3.9);
  EXPECT_LT(z.back(), 5.7);
}

// The laws of dead reckoning: cross variance L^2 sb^2 + L s se^2 (here sb = 0), along L nu^2, less
// the second-order shrink; 20 sightings of 50 m.
TEST(WalkKernel, CrossAndAlongVariances) {
  terrain::Elevation flat(terrain::Frame{-2000, 2000, 20, 200, 200}, 0.0F);
  const auto pace = level_pace();
  const std::size_t n = 100000;
  Walkers w = start(n, flat.frame(), 0);
  walk(flat, {40, 25, 2, 0.05F, static_cast<float>(0.4 * std::sqrt(50)), pace}, w, nullptr);
  Moments east, north;
  for (std::size_t i = 0; i < n; ++i) {
    east.add((static_cast<double>(w.col[i]) - flat.frame().col_of({0, 0})) * 20);
    north.add(-(static_cast<double>(w.row[i]) - flat.frame().row_of({0, 0})) * 20);
  }
  const double cross = 1000 * 50 * 0.05 * 0.05, along = 1000 * 0.4 * 0.4;
  EXPECT_NEAR(east.variance(), cross, 4 * cross * std::sqrt(2.0 / n) + cross * 0.003);
  EXPECT_NEAR(north.variance(), along,
              4 * along * std::sqrt(2.0 / n) + 20 * 2500 * 0.5 * std::pow(0.05, 4) + 0.5);
  EXPECT_NEAR(north.mean(), 1000 * std::exp(-0.05 * 0.05 / 2), 4 * std::sqrt(along / n));
  EXPECT_NEAR(static_cast<double>(w.seconds[0]), 0.9 * 1000, 60);
}

TEST(WalkKernel, VoidsAndTheEdgeAreLevel) {
  terrain::Elevation holes(terrain::Frame{-2000, 2000, 20, 200, 200}, std::nanf(""));
  const auto pace = level_pace();
  Walkers w = start(16, holes.frame(), 1);
  walk(holes, {200, 50, 1, 0, 0, pace}, w, nullptr);
  EXPECT_NEAR(static_cast<double>(w.seconds[3]), 0.9 * 10000, 1);
}
}  // namespace walk_kernel_test
