// Check values: computed with NumPy for the same marks (Gauss-Newton on bearings, sigma 2 degrees),
// to the last digit given; the three-point problem of a university course (Ferris State, SURE 215).
#include "lodeway/belief/resection.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "lodeway/numeric/random.hpp"

namespace lodeway::belief {
namespace {
using earth::GridPoint;
using units::GridBearing;

const std::array<GridPoint, 4> marks{{{2000, 3000}, {4000, 3500}, {3600, 1200}, {1000, 1000}}};
constexpr std::array<double, 4> bearings{337.380135, 41.423666, 118.610460, 241.927513};

std::vector<Sighted> sighted(std::size_t n, std::array<double, 4> error = {}, double all = 0) {
  std::vector<Sighted> out;
  for (std::size_t i = 0; i < n; ++i)
    out.push_back({marks[i], GridBearing::degrees(bearings[i] + error[i] + all), 2});
  return out;
}
constexpr std::array<double, 4> errors{1.5, -0.8, 2.2, -1.1};
constexpr std::array<double, 4> three{1.5, -0.8, 2.2, 0};
const Bias none{}, prior{Bias::How::prior, 3}, unknown{Bias::How::free, 0};

struct Row {
  const char* what;
  std::vector<Sighted> sighted;
  Bias bias;
  double east, north, bias_deg;
  std::vector<double> residuals;
  double major, minor, azimuth, chi2;
};

TEST(Resection, WorkedExamples) {
  auto last = sighted(4, errors);
  last[1].bearing = GridBearing::degrees(bearings[1] + errors[1] + 15);
  auto fourth = sighted(4, errors, 5);
  const std::vector<Row> rows{
      {"1,2 exact", sighted(2), none, 2500, 1800, 0, {0, 0}, 91.617, 43.596, 166.373, 0},
      {"1-3 exact", sighted(3), none, 2500, 1800, 0, {0, 0, 0}, 61.017, 33.344, 138.589, 0},
      {"1-3 off",
       sighted(3, three),
       none,
       2485.338,
       1830.253,
       0,
       {1.4141, -1.5882, 1.3257},
       61.306,
       33.193,
       140.348,
       1.5699},
      {"prior",
       sighted(3, three),
       prior,
       2547.076,
       1765.226,
       1.7523,
       {1.024, -1.0758, 0.8306},
       140.891,
       32.986,
       136.490,
       1.0651},
      {"free",
       sighted(3, three),
       unknown,
       2686.913,
       1631.236,
       5.5299,
       {0, 0, 0},
       240.607,
       31.288,
       131.487,
       0},
      {"all +5",
       sighted(4, {}, 5),
       none,
       2452.734,
       1826.932,
       0,
       {3.4837, 3.6608, 4.9557, 6.5771},
       42.485,
       33.390,
       133.959,
       23.3389},
      {"all +5, free",
       sighted(4, {}, 5),
       unknown,
       2500,
       1800,
       5,
       {0, 0, 0, 0},
       45.054,
       32.916,
       128.088,
       0},
      {"+5 and off, free",
       fourth,
       unknown,
       2488.696,
       1828.116,
       5.3193,
       {1.1978, -1.8077, 1.0158, -0.4059},
       44.743,
       32.939,
       130.957,
       1.4748},
      {"mark 2 +15",
       last,
       none,
       2373.720,
       1958.795,
       0,
       {-1.3753, 9.0851, -0.9378, 5.7408},
       42.484,
       32.155,
       152.068,
       29.5669}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.what);
    const auto fix = resect(row.sighted, row.bias);
    ASSERT_TRUE(fix) << fix.error().what;
    EXPECT_NEAR(fix->at.east_m, row.east, 1e-3);
    EXPECT_NEAR(fix->at.north_m, row.north, 1e-3);
    EXPECT_NEAR(fix->bias_deg, row.bias_deg, 6e-5);
    for (std::size_t i = 0; i < row.residuals.size(); ++i)
      EXPECT_NEAR(fix->residual_deg[i], row.residuals[i], 6e-5);
    const auto axes = numeric::axes_of(fix->covariance);
    EXPECT_NEAR(axes.major, row.major, 6e-4);
    EXPECT_NEAR(axes.minor, row.minor, 6e-4);
    EXPECT_NEAR(axes.azimuth * 180 / std::numbers::pi, row.azimuth, 6e-4);
    EXPECT_NEAR(fix->chi2, row.chi2, 6e-5);
    for (const bool b : fix->behind) EXPECT_FALSE(b);
  }
}

TEST(Resection, BlunderTest) {
  auto off = sighted(4, errors);
  off[1].bearing = GridBearing::degrees(bearings[1] + errors[1] + 15);
  const auto all = resect(off, none);
  ASSERT_TRUE(all);
  const std::array<double, 4> w{-1.264, 5.376, -0.654, 4.163}, r{0.296, 0.714, 0.514, 0.476};
  double sum = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(all->w[i], w[i], 6e-4);
    EXPECT_NEAR(all->redundancy_of[i], r[i], 6e-4);
    sum += all->redundancy_of[i];
  }
  EXPECT_NEAR(sum, 2, 1e-9);
  const std::array<double, 4> left_out{28.1, 0.679, 29.1, 11.7};
  for (std::size_t i = 0; i < 4; ++i) {
    auto fewer = off;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
    EXPECT_NEAR(resect(fewer, none)->chi2, left_out[i], i == 1 ? 6e-4 : 0.06);
  }
  const auto said = blunder(off, none, *all);
  ASSERT_TRUE(said);
  EXPECT_EQ(said->said, Blunder::Said::this_one);
  EXPECT_EQ(said->which, 1U);
  EXPECT_NEAR(said->mended->at.east_m, 2465.823, 1e-3);
  EXPECT_NEAR(said->mended->at.north_m, 1847.823, 1e-3);
  EXPECT_GT(said->off_deg, 10);
}

TEST(Resection, BlundersThatCannotBeNamedAreNot) {
  const auto two = resect(sighted(2), none);
  EXPECT_EQ(blunder(sighted(2), none, *two)->said, Blunder::Said::cannot_tell);
  auto wrong = sighted(3);
  wrong[2].bearing = GridBearing::degrees(bearings[2] + 25);
  const auto fix = resect(wrong, none);
  // one redundancy: all normalised residuals are of one size
  EXPECT_NEAR(std::abs(fix->w[0]), std::abs(fix->w[1]), 1e-6);
  EXPECT_NEAR(std::abs(fix->w[0]), std::abs(fix->w[2]), 1e-6);
  EXPECT_EQ(blunder(wrong, none, *fix)->said, Blunder::Said::some);
  EXPECT_EQ(blunder(sighted(3, three), none, *resect(sighted(3, three), none))->said,
            Blunder::Said::none);
}

// The neighbouring top was sighted: its place is tried before the angle is blamed.
TEST(Resection, TheWrongThingSighted) {
  auto s = sighted(4, errors);
  const GridPoint neighbour{4300, 2700};
  const double to = earth::grid_bearing({2500, 1800}, neighbour).in_degrees();
  s[1].bearing = GridBearing::degrees(to + 0.5);
  s[1].others = {{9000, 9000}, neighbour};
  const auto said = blunder(s, none, *resect(s, none));
  ASSERT_TRUE(said);
  EXPECT_EQ(said->said, Blunder::Said::other_thing);
  EXPECT_EQ(said->which, 1U);
  EXPECT_EQ(said->candidate, 1U);
  EXPECT_LT(earth::grid_distance_m(said->mended->at, {2500, 1800}), 100);
}

TEST(Resection, TwoBearings) {
  const double cut = cut_deg(GridBearing::degrees(bearings[0]), GridBearing::degrees(bearings[1]));
  EXPECT_NEAR(cut, 64.0435, 6e-5);
  EXPECT_NEAR(two_bearing_rms_m(1300.0, 2267.157, cut, 2), 101.460, 6e-4);
  const auto axes = numeric::axes_of(resect(sighted(2), none)->covariance);
  EXPECT_NEAR(std::hypot(axes.major, axes.minor), 101.460, 6e-4);
}

// Danger circle: centre (2500, 2500), radius 1000, marks at 0, 70, 140 degrees on it.
TEST(Resection, DangerCircleMattersOnlyWithAFreeBias) {
  const auto on = [](double deg, double r = 1000) {
    return GridPoint{2500 + r * std::sin(deg * std::numbers::pi / 180),
                     2500 + r * std::cos(deg * std::numbers::pi / 180)};
  };
  const GridPoint p = on(240);
  EXPECT_NEAR(p.east_m, 1633.975, 6e-4);
  std::vector<Sighted> s;
  for (const double deg : {0.0, 70.0, 140.0})
    s.push_back({on(deg), earth::grid_bearing(p, on(deg)), 2});
  auto axes = numeric::axes_of(resect(s, none)->covariance);
  EXPECT_NEAR(axes.major, 70.358, 6e-4);
  EXPECT_NEAR(axes.minor, 39.906, 6e-4);
  axes = numeric::axes_of(resect(s, prior)->covariance);
  EXPECT_NEAR(axes.major, 112.682, 6e-4);
  EXPECT_NEAR(axes.minor, 69.367, 6e-4);
}

TEST(Resection, ThreePointProblemOfTheCourse) {
  const auto angle = [](double d, double m, double s) {
    return units::Angle::degrees(d + m / 60 + s / 3600);
  };
  const auto alpha = angle(115, 5, 20), gamma = angle(109, 30, 45);
  const auto p = tienstra({1000, 5300}, {2200, 6300}, {3100, 5000}, alpha,
                          units::Angle::degrees(360) - alpha - gamma, gamma);
  ASSERT_TRUE(p);
  EXPECT_NEAR(p->east_m, 2128.390, 6e-4);
  EXPECT_NEAR(p->north_m, 5578.144, 6e-4);
}

// The true place lies inside the triangle of three independent lines one time in four (three
// lines pass it on either side, 2 of 8 sign patterns enclose it).
TEST(Resection, TriangleHoldsTheTruthOneTimeInFour) {
  numeric::Random random(4);
  const int n = 8000;
  int inside = 0;
  const GridPoint p{2500, 1800};
  for (int k = 0; k < n; ++k) {
    std::array<Sighted, 3> s;
    for (std::size_t i = 0; i < 3; ++i)
      s[i] = {marks[i], GridBearing::degrees(bearings[i] + 2 * random.normal()), 2};
    std::array<GridPoint, 3> corner;
    for (std::size_t i = 0; i < 3; ++i)
      corner[i] = resect(std::vector{s[i], s[(i + 1) % 3]}, none)->at;
    const auto turns = [&](std::size_t i) {
      const GridPoint a = corner[i], b = corner[(i + 1) % 3];
      return (b.east_m - a.east_m) * (p.north_m - a.north_m) -
                 (b.north_m - a.north_m) * (p.east_m - a.east_m) >
             0;
    };
    inside += turns(0) == turns(1) && turns(1) == turns(2);
  }
  EXPECT_NEAR(static_cast<double>(inside) / n, 0.25, 4 * std::sqrt(0.25 * 0.75 / n));
}

// Simulated bearings: the 1-sigma ellipse's Mahalanobis distance is chi-square with two degrees.
TEST(Resection, TheEllipseHoldsWhatItSays) {
  numeric::Random random(17);
  const int n = 4000;
  int inside = 0;
  for (int k = 0; k < n; ++k) {
    std::vector<Sighted> s;
    for (std::size_t i = 0; i < 4; ++i)
      s.push_back({marks[i], GridBearing::degrees(bearings[i] + 2 * random.normal()), 2});
    const auto fix = resect(s, none);
    ASSERT_TRUE(fix);
    const GridPoint d = fix->at - GridPoint{2500, 1800};
    const auto& c = fix->covariance;
    const double det = c.xx * c.yy - c.xy * c.xy;
    const double m2 = (c.yy * d.east_m * d.east_m - 2 * c.xy * d.east_m * d.north_m +
                       c.xx * d.north_m * d.north_m) /
                      det;
    inside += m2 < 5.991;
  }
  EXPECT_NEAR(static_cast<double>(inside) / n, 0.95, 4 * std::sqrt(0.05 * 0.95 / n) + 0.005);
}

TEST(Resection, RefusesWhatIsNoFix) {
  EXPECT_FALSE(resect(sighted(1), none));
  auto same = sighted(2);
  same[1].mark = same[0].mark;
  EXPECT_FALSE(resect(same, none));
  std::vector<Sighted> side{{{0, 1000}, GridBearing::degrees(0), 2},
                            {{500, 1000}, GridBearing::degrees(0.5), 2}};
  EXPECT_FALSE(resect(side, none));
  EXPECT_FALSE(resect(sighted(2), unknown));
  auto zero = sighted(3);
  zero[0].sigma_deg = 0;
  EXPECT_FALSE(resect(zero, none));
}
}  // namespace
}  // namespace lodeway::belief
