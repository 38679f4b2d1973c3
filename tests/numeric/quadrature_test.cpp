#include "lodeway/numeric/quadrature.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/parallel.hpp"

namespace {
using namespace lodeway::numeric;

// A ten-point Gauss rule is exact to degree 19: the integral of x^18 over [-1, 1] is 2/19.
TEST(Quadrature, ExactToDegreeNineteen) {
  EXPECT_NEAR(integrate([](double x) { return std::pow(x, 18); }, -1, 1, 1), 2.0 / 19, 1e-14);
  EXPECT_NEAR(integrate([](double x) { return std::pow(x, 19); }, 0, 2, 1), std::pow(2, 20) / 20,
              1e-8);
}

TEST(Quadrature, SinesAndTheNormal) {
  EXPECT_NEAR(integrate([](double x) { return std::sin(x); }, 0, std::numbers::pi, 2), 2, 1e-13);
  EXPECT_NEAR(integrate(normal_density, -1.3, 2.1, 4), normal_cdf(2.1) - normal_cdf(-1.3), 1e-14);
}

TEST(Quadrature, MinimumOfAParabolaAndAtTheEdge) {
  EXPECT_NEAR(minimum_between([](double x) { return (x - 0.3) * (x - 0.3); }, -2, 5, 1e-7), 0.3,
              1e-7);
  EXPECT_NEAR(minimum_between([](double x) { return x; }, 1, 2, 1e-7), 1, 1e-7);
}

TEST(Parallel, SerialRunsEachBlockOnce) {
  int seen[7] = {};
  Serial{}.for_each_block(7, [&](std::size_t b) { ++seen[b]; });
  for (const int s : seen) EXPECT_EQ(s, 1);
}
}  // namespace
