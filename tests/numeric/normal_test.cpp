#include "lodeway/numeric/normal.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/numeric/normal_table.hpp"
#include "support/support.hpp"

namespace {
using namespace lodeway::numeric;
using lodeway::support::read_table;

// Source of all tables here: SciPy 1.10.1, tests/published/numeric/SOURCE.md.
TEST(Normal, CdfIsSciPys) {
  const auto rows = read_table("numeric/normal_cdf.csv");
  ASSERT_EQ(rows.size(), 14U);
  for (const auto& r : rows) {
    EXPECT_NEAR(normal_cdf(r[0]), r[1], 1e-15);
    EXPECT_NEAR(normal_cdf(r[0]) / r[1], 1.0, 1e-13) << r[0];
  }
}

TEST(Normal, QuantileIsSciPysToTheFarTail) {
  const auto rows = read_table("numeric/normal_quantile.csv");
  ASSERT_EQ(rows.size(), 15U);
  for (const auto& r : rows) EXPECT_NEAR(normal_quantile(r[0]), r[1], 4e-15 * (1 + std::abs(r[1])));
}

TEST(Normal, TableIsSciPysAndTheClosedForm) {
  for (const auto& r : read_table("numeric/normal_cdf.csv"))
    EXPECT_NEAR(normal_table.cdf(r[0]), r[1], 5e-12) << r[0];
  for (double z = -10; z <= 10; z += 0.00713) {
    EXPECT_NEAR(normal_table.cdf(z), normal_cdf(z), 5e-12) << z;
    EXPECT_NEAR(normal_table.density(z), normal_density(z), 1e-9) << z;
  }
  EXPECT_EQ(normal_table.cdf(-INFINITY), 0);
  EXPECT_EQ(normal_table.cdf(INFINITY), 1);
}

// AS 241 (Wichura 1988) is printed with the check values at 0.25 and 0.001 [digits from memory].
TEST(Normal, QuantileAtTheQuarterAndAtTheEnds) {
  EXPECT_NEAR(normal_quantile(0.25), -0.6744897501960817, 1e-15);
  EXPECT_NEAR(normal_quantile(0.001), -3.090232306167814, 1e-14);
  EXPECT_EQ(normal_quantile(0), -INFINITY);
  EXPECT_EQ(normal_quantile(1), INFINITY);
  EXPECT_TRUE(std::isnan(normal_quantile(-0.1)));
  EXPECT_TRUE(std::isnan(normal_quantile(NAN)));
}

TEST(Normal, QuantileUndoesCdf) {
  for (double z = -8; z <= 5; z += 0.37) EXPECT_NEAR(normal_quantile(normal_cdf(z)), z, 3e-10);
}

TEST(Bivariate, RiceIsSciPys) {
  const auto rows = read_table("numeric/rice.csv");
  ASSERT_EQ(rows.size(), 48U);
  for (const auto& r : rows) {
    const double v = r[1] * r[1];
    EXPECT_NEAR(disc_probability({v, 0, v}, 0.6 * r[0], -0.8 * r[0], r[2]), r[3], 1e-10);
  }
}

TEST(Bivariate, DiscIsSciPysDoubleIntegral) {
  const auto rows = read_table("numeric/disc.csv");
  ASSERT_EQ(rows.size(), 6U);
  for (const auto& r : rows)
    EXPECT_NEAR(disc_probability({r[0], r[1], r[2]}, r[3], r[4], r[5]), r[6], 1e-10);
}

// An ellipse squeezed to a line is the one-dimensional normal: 0.6827 within one sigma.
TEST(Bivariate, DiscWithoutSpreadInOneAxis) {
  EXPECT_NEAR(disc_probability({0, 0, 4}, 0, 0, 2), 0.682689492137, 1e-10);
  EXPECT_EQ(disc_probability({0, 0, 0}, 0.5, 0, 1), 1.0);
  EXPECT_EQ(disc_probability({0, 0, 0}, 1.5, 0, 1), 0.0);
  EXPECT_EQ(disc_probability({1, 0, 1}, 0, 0, 0), 0.0);
}
}  // namespace
