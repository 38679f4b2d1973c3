#include "lodeway/numeric/random.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/statistics.hpp"

namespace {
using namespace lodeway::numeric;

// Ten outputs of the authors' xoshiro256plusplus.c from the state 1, 2, 3, 4, as kept in the test
// of rust-random's rand_xoshiro (xoshiro256plusplus.rs, `reference`). The first is 5 * 2^23 + 1 by
// hand.
TEST(Random, BitsAreTheAuthorsOwn) {
  Random random(std::array<std::uint64_t, 4>{1, 2, 3, 4});
  for (const std::uint64_t expected :
       {41943041ULL, 58720359ULL, 3588806011781223ULL, 3591011842654386ULL, 9228616714210784205ULL,
        9973669472204895162ULL, 14011001112246962877ULL, 12406186145184390807ULL,
        15849039046786891736ULL, 10450023813501588000ULL})
    EXPECT_EQ(random.bits(), expected);
}

TEST(Random, UniformKeepsOffItsEndsAndFillsEvenly) {
  Random random(7);
  std::array<int, 20> bins{};
  const int n = 200000;
  for (int i = 0; i < n; ++i) {
    const double u = random.uniform();
    ASSERT_GT(u, 0.0);
    ASSERT_LT(u, 1.0);
    ++bins[static_cast<std::size_t>(u * 20)];
  }
  double chi2 = 0;
  for (const int b : bins) chi2 += (b - n / 20.0) * (b - n / 20.0) / (n / 20.0);
  EXPECT_LT(chi2, 43.8);  // chi-square, 19 degrees of freedom: 0.999 point 43.82 (standard table)
}

// Moments of the standard normal 0, 1, 0, 3; their standard errors sqrt(1, 2, 6, 24) / sqrt(n).
TEST(Random, NormalMomentsAndKolmogorov) {
  Random random(11, 3);
  const int n = 400000;
  std::vector<double> z(n);
  double m1 = 0, m2 = 0, m3 = 0, m4 = 0;
  for (double& x : z) {
    x = random.normal();
    m1 += x;
    m2 += x * x;
    m3 += x * x * x;
    m4 += x * x * x * x;
  }
  const double root = std::sqrt(n);
  EXPECT_NEAR(m1 / n, 0, 3.5 / root);
  EXPECT_NEAR(m2 / n, 1, 3.5 * std::sqrt(2) / root);
  EXPECT_NEAR(m3 / n, 0, 3.5 * std::sqrt(15) / root);
  EXPECT_NEAR(m4 / n, 3, 3.5 * std::sqrt(96) / root);
  std::ranges::sort(z);
  double worst = 0;
  for (int i = 0; i < n; ++i)
    worst = std::max(worst, std::abs(normal_cdf(z[static_cast<std::size_t>(i)]) - (i + 0.5) / n));
  EXPECT_LT(worst * root, 1.95);  // Kolmogorov: 0.999 point 1.949 (standard table)
}

TEST(Random, StreamsOfOneSeedAreUncorrelatedAndRepeatable) {
  Random a(5, 0), b(5, 1), c(6, 0), again(5, 0);
  const int n = 100000;
  double ab = 0, ac = 0;
  for (int i = 0; i < n; ++i) {
    const double x = a.normal();
    ASSERT_EQ(x, again.normal());
    ab += x * b.normal();
    ac += x * c.normal();
  }
  EXPECT_LT(std::abs(ab) / std::sqrt(n), 3.5);
  EXPECT_LT(std::abs(ac) / std::sqrt(n), 3.5);
}

TEST(Statistics, QuantilesAndShares) {
  const std::vector<double> v{2, 4, 4, 4, 5, 5, 7, 9};
  EXPECT_EQ(sorted_quantile(v, 0), 2);
  EXPECT_EQ(sorted_quantile(v, 1), 9);
  EXPECT_EQ(sorted_quantile(v, 0.5), 4.5);
  EXPECT_NEAR(sorted_quantile(v, 0.9), 7.6, 1e-12);  // 7 + 0.3 * 2, type 7 by hand
  EXPECT_GT(share_error(0, 100), 0);
  EXPECT_NEAR(share_error(500, 1000), std::sqrt(0.25 / 1004), 1e-15);
}
}  // namespace
