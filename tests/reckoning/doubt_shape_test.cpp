#include "lodeway/reckoning/judge/doubt_shape.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "lodeway/numeric/random.hpp"

namespace doubt_shape_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using earth::GridPoint;

JudgedLeg leg_to(GridPoint from, GridPoint to, const numeric::Covariance& at_end) {
  JudgedLeg leg;
  leg.course.kind = walking::LegKind::bearing;
  leg.course.line = {from, to};
  leg.judged.at_end = at_end;
  leg.judged.cross_sigma_m = 20;
  return leg;
}

bool inside(const std::vector<GridPoint>& ring, GridPoint p) {
  bool in = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    if ((ring[i].north_m > p.north_m) != (ring[j].north_m > p.north_m) &&
        p.east_m < (ring[j].east_m - ring[i].east_m) * (p.north_m - ring[i].north_m) /
                           (ring[j].north_m - ring[i].north_m) +
                       ring[i].east_m)
      in = !in;
  }
  return in;
}

// Drawn errors of this covariance, correlated: as many lie inside as the header says. Standard
// error of 40 000: 0.11 of 100; a polygon of 48 corners has 0.3 of 100 less than its ellipse.
TEST(DoubtShape, TheEllipseHoldsItsShareAndLeansTheRightWay) {
  const double xx = 900, xy = 500, yy = 400;
  const auto ring = end_ellipse(leg_to({0, 0}, {1000, 2000}, {xx, xy, yy}));
  ASSERT_EQ(ring.size(), 48U);
  numeric::Random random(3);
  const double a = std::sqrt(xx), b = xy / a, c = std::sqrt(yy - b * b);  // Cholesky's root
  int in = 0;
  constexpr int n = 40000;
  for (int i = 0; i < n; ++i) {
    const double u = random.normal(), v = random.normal();
    in += inside(ring, {1000 + a * u, 2000 + b * u + c * v}) ? 1 : 0;
  }
  EXPECT_NEAR(in / static_cast<double>(n), ellipse_share, 0.006);
  EXPECT_TRUE(end_ellipse(leg_to({0, 0}, {1, 1}, {})).empty());
}

// By hand: a leg to the east is one standard error wide from a fix, and to the right is south.
TEST(DoubtShape, TheRibbonOfALegToTheEast) {
  const auto leg = leg_to({0, 0}, {500, 0}, {});
  const auto r = ribbon(leg, nullptr, 5);
  ASSERT_EQ(r.size(), 4U);
  const double first = ribbon_sigmas * 5, last = ribbon_sigmas * 20;
  const std::vector<GridPoint> want{{0, first}, {500, last}, {500, -last}, {0, -first}};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(r[i].east_m, want[i].east_m, 1e-9) << i;
    EXPECT_NEAR(r[i].north_m, want[i].north_m, 1e-9) << i;
  }
  // To the north-east, 3 : 4: the left of it is north-west.
  const auto slanting = ribbon(leg_to({0, 0}, {400, 300}, {}), nullptr, 5);
  EXPECT_NEAR(slanting[0].east_m, -0.6 * first, 1e-9);
  EXPECT_NEAR(slanting[0].north_m, 0.8 * first, 1e-9);
  // Who starts unsure, north and south of the place by 12 m, has that at the start.
  auto before = leg_to({-100, 0}, {0, 0}, {9, 0, 144});
  before.judged.fix_at_end = false;
  EXPECT_NEAR(ribbon(leg, &before, 5)[0].north_m, ribbon_sigmas * 12, 1e-9);
}
}  // namespace doubt_shape_test
