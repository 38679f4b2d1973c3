#include "lodeway/belief/belief.hpp"

#include <gtest/gtest.h>

#include <numbers>
#include <numeric>

#include "lodeway/belief/questions.hpp"
#include "lodeway/numeric/random.hpp"
#include "sight/made_ground.hpp"

namespace lodeway::belief {
namespace {
using mapdata::Kind;
using mapdata::Visibility;
using sight::Cue;
namespace made = sight::made;
using units::GridBearing;

Report height(double z) {
  Report r;
  r.value = z;
  return r;
}
double total(const Belief& b) {
  double sum = b.elsewhere;
  for (const float v : b.share) sum += static_cast<double>(v);
  return sum;
}
const Perception robust = sight::perception_of(walking::Skill::practised);

class BeliefOnMadeGround : public ::testing::Test {
 protected:
  CuePlanes planes = made::planes_of(made::ground());
  GridPoint middle{made::west + 2000, made::south + 2000};
};

TEST_F(BeliefOnMadeGround, SharesAndElsewhereMakeOne) {
  for (const Prior& prior :
       {Prior{Anywhere{}}, Prior{LastSure{middle, 20, GridBearing::degrees(60)}},
        Prior{LastSure{middle, 20}},
        Prior{OnCourse{{middle, {made::west + 3000, made::south + 2500}}}}}) {
    const auto b = before(planes, prior);
    EXPECT_NEAR(total(b), 1, 1e-4);
    const std::vector<Report> told{height(700), height(690)};
    const auto after = locate(planes, prior, told, robust, Visibility::clear);
    EXPECT_NEAR(total(after), 1, 1e-4);
    // one after the other is all at once
    const auto one = observe(locate(planes, prior, {told.data(), 1}, robust, Visibility::clear),
                             planes, told[1], robust, Visibility::clear);
    EXPECT_NEAR(one.elsewhere, after.elsewhere, 1e-5);
    for (std::size_t i = 0; i < after.share.size(); i += 97)
      EXPECT_NEAR(one.share[i], after.share[i], 1e-6);
  }
}

// By hand: half of the prior is log-normal about 20 min x 3.2 km/h = 1067 m, so half of that half
// lies within the median distance 1067 m, and of the other half, evenly within what was walked, the
// share within r is the mean of min(r, walked) / walked's mean.
TEST_F(BeliefOnMadeGround, TheRingIsWhatWasWalked) {
  const LastSure last{middle, 20};
  const auto b = before(planes, last);
  const double m = 20 * 3.2 * 1000 / 60;
  double inside = 0, all = 0;
  for (int r = 0; r < planes.frame.rows; ++r) {
    for (int c = 0; c < planes.frame.cols; ++c) {
      const auto v = static_cast<double>(b.share[planes.index(r, c)]);
      all += v;
      if (earth::grid_distance_m(planes.frame.centre(r, c), middle) < m) inside += v;
    }
  }
  // E min(m, X) / E X for X log-normal with median m, s^2 = ln 1.09:
  // (exp(s^2/2) Phi(-s) + 1/2) / exp(s^2/2)
  const double s2 = std::log(1.09), s = std::sqrt(s2);
  const double within = 0.5 * std::erfc(s / std::sqrt(2.0)) + 0.5 / std::exp(s2 / 2);
  EXPECT_NEAR(inside / all, 0.5 * (0.5 + within), 0.02);  // 10 m cells
}

TEST_F(BeliefOnMadeGround, AHeadingPullsThatWay) {
  const auto b = before(planes, LastSure{middle, 20, GridBearing::degrees(90)});
  double east = 0, west = 0;
  for (int r = 0; r < planes.frame.rows; ++r) {
    for (int c = 0; c < planes.frame.cols; ++c)
      (c >= planes.frame.cols / 2 ? east : west) +=
          static_cast<double>(b.share[planes.index(r, c)]);
  }
  // all of the reckoned half but 2 in 10 000 lies east, and half of the ring
  EXPECT_NEAR(east / (east + west), 0.75, 0.02);
}

// On a slope that rises evenly a height is a band: +-1.645 sigma of hypot(1.15 x 15, 4) = 17.7 m.
TEST_F(BeliefOnMadeGround, AHeightIsABandAlongTheContour) {
  auto flat = made::ground();
  for (int r = 0; r < flat.elevation.rows(); ++r) {
    for (int c = 0; c < flat.elevation.cols(); ++c)
      flat.elevation[r, c] = static_cast<float>(400 + 0.5 * (c + 0.5) * 10);
  }
  const auto p = made::planes_of(flat);
  Perception plain = sight::plain_perception_of(walking::Skill::practised);
  const std::vector<Report> told{height(1400)};
  const auto s = summary(locate(p, Anywhere{}, told, plain, Visibility::clear), p);
  const double sigma = std::hypot(15, 4) / 0.5;  // metres on the ground
  // whole columns of cells, taken in pairs of equal probability until there are enough
  EXPECT_NEAR(s.area90_m2 / made::side, 2 * 1.6449 * sigma + 10, 11);
  EXPECT_NEAR(s.area50_m2 / made::side, 2 * 0.6745 * sigma + 10, 11);
}

TEST_F(BeliefOnMadeGround, NothingMakesItNaN) {
  auto g = made::ground();
  for (int r = 0; r < 200; ++r) {
    for (int c = 0; c < 400; ++c) g.elevation[r, c] = std::numeric_limits<float>::quiet_NaN();
  }
  const auto p = made::planes_of(g);
  std::vector<Report> told{height(-4000), height(9000), height(500)};
  for (const double mix : {0.0, 0.08}) {
    Perception how = robust;
    how.mix = mix;
    for (const Prior& prior : {Prior{Anywhere{}}, Prior{LastSure{{0, 0}, 5}},
                               Prior{LastSure{middle, 1}}, Prior{LastSure{middle, 100000}}}) {
      const auto b = locate(p, prior, told, how, Visibility::night);
      EXPECT_NEAR(total(b), 1, 1e-4);
      for (const float v : b.share) ASSERT_TRUE(std::isfinite(v) && v >= 0);
      const auto s = summary(b, p);
      EXPECT_TRUE(std::isfinite(s.area90_m2));
      for (int c = 0; c < 400; c += 50) EXPECT_EQ(b.share[p.index(50, c)], 0);  // voids hold nobody
    }
  }
  // a last sure place far outside the file: everything is elsewhere, and no crash
  EXPECT_GT(locate(p, LastSure{{0, 0}, 5}, told, robust, Visibility::night).elsewhere, 0.99);
}

TEST_F(BeliefOnMadeGround, ContradictionsAreNamed) {
  const GridPoint at = planes.frame.centre(120, 200);
  const std::vector<Report> told{height(planes.height_m(*planes.cell(at)) + 5),
                                 height(planes.height_m(*planes.cell(at)) + 150)};
  const auto off = misfits(planes, at, told, robust, Visibility::clear);
  ASSERT_EQ(off.size(), 1U);
  EXPECT_EQ(off[0].report, 1U);
  EXPECT_NEAR(off[0].off, 150, 0.5);
}

TEST_F(BeliefOnMadeGround, MovedByWhatWasWalked) {
  Belief b{planes.frame, std::vector<float>(planes.frame.size(), 0.0F), 0.1};
  b.share[planes.index(200, 100)] = 0.9F;
  const auto m = moved(b, planes, GridBearing::degrees(90), 1000);
  EXPECT_NEAR(total(m), 1, 1e-5);
  double east = 0, north = 0, e2 = 0, n2 = 0;
  for (int r = 0; r < planes.frame.rows; ++r) {
    for (int c = 0; c < planes.frame.cols; ++c) {
      const auto v = static_cast<double>(m.share[planes.index(r, c)]) / 0.9;
      east += v * (c - 100) * 10;
      north += v * (200 - r) * 10;
      e2 += v * (c - 100) * 10 * (c - 100) * 10;
      n2 += v * (200 - r) * (200 - r) * 100;
    }
  }
  EXPECT_NEAR(east, 1000 * std::cos(5.0 / 180 * std::numbers::pi), 8);
  EXPECT_NEAR(north, 0, 5);
  // the three middles of thirds have 0.89 of a normal's sigma
  EXPECT_NEAR(std::sqrt(e2 - east * east), 0.89 * 100, 12);
  EXPECT_NEAR(std::sqrt(n2), 0.89 * 1000 * 5 * std::numbers::pi / 180, 12);
}

TEST_F(BeliefOnMadeGround, TwoPlacesAreTwoParts) {
  Belief b{planes.frame, std::vector<float>(planes.frame.size(), 0.0F), 0};
  const auto put = [&](int row, int col, float share) {
    for (int r = row - 2; r <= row + 2; ++r) {
      for (int c = col - 2; c <= col + 2; ++c) b.share[planes.index(r, c)] = share / 25;
    }
  };
  put(100, 100, 0.7F);
  put(300, 300, 0.3F);
  const auto s = summary(b, planes);
  ASSERT_EQ(s.parts.size(), 2U);
  EXPECT_NEAR(s.parts[0].share, 0.7, 1e-3);
  EXPECT_NEAR(s.parts[1].share, 0.3, 1e-3);
  EXPECT_NEAR(earth::grid_distance_m(s.parts[0].middle, planes.frame.centre(100, 100)), 0, 1);
  EXPECT_NEAR(s.area90_m2, 5000, 1);
  EXPECT_NEAR(s.area50_m2, 2500, 1);
}

TEST_F(BeliefOnMadeGround, DrawsFollowTheShares) {
  const auto b = before(planes, LastSure{middle, 20, GridBearing::degrees(45)});
  const auto cells = draws(b, 5000);
  ASSERT_EQ(cells.size(), 5000U);
  double in = 0, expected = 0, all = 0;
  for (const auto c : cells) in += c < planes.frame.size() / 2;
  for (std::size_t i = 0; i < b.share.size(); ++i) {
    all += static_cast<double>(b.share[i]);
    if (i < planes.frame.size() / 2) expected += static_cast<double>(b.share[i]);
  }
  EXPECT_NEAR(in / 5000, expected / all, 0.002);
}

// Check values of the expected information, computed with NumPy by both forms of the identity.
TEST(Questions, ExpectedInformationByHand) {
  const std::array<double, 4> p{.4, .3, .2, .1};
  const auto bits = [&](std::array<double, 4> yes) {
    std::vector<std::vector<double>> rows;
    for (const double y : yes) rows.push_back({y, 1 - y});
    return expected_bits(p, rows);
  };
  EXPECT_NEAR(bits({.9, .9, .2, .1}), 0.384799, 5e-7);
  EXPECT_NEAR(bits({.95, .05, .05, .05}), 0.690104, 5e-7);
  EXPECT_NEAR(bits({.9, .1, .9, .1}), 0.512458, 5e-7);
  EXPECT_NEAR(bits({.9, .9, .1, .1}), 0.455823, 5e-7);
  EXPECT_NEAR(bits({.5, .5, .5, .5}), 0, 1e-12);
}

// A prior of two places, one at 450 m and one at 800: the height tells them apart, 1 bit.
TEST_F(BeliefOnMadeGround, TheQuestionThatTellsIsAskedFirst) {
  Belief b{planes.frame, std::vector<float>(planes.frame.size(), 0.0F), 0};
  b.share[planes.index(200, 40)] = 0.5F;
  b.share[planes.index(200, 360)] = 0.5F;
  const auto s = summary(b, planes);
  Asking asking;
  asking.altimeter = true;
  Perception plain = sight::plain_perception_of(walking::Skill::practised);
  const auto q = next_questions(b, s, planes, {}, plain, Visibility::cloud, asking);
  ASSERT_FALSE(q.empty());
  EXPECT_EQ(q[0].act, Do::tell);
  EXPECT_EQ(q[0].ask.cue, Cue::height);
  EXPECT_NEAR(q[0].bits, 1, 1e-3);
  double chance = 0;
  for (const auto& m : q[0].meanings) {
    EXPECT_GT(m.share, 0.99);  // each answer settles it
    chance += m.chance;
  }
  EXPECT_NEAR(chance, 1, 0.25);  // answers of less than 5 in 100 are not told
  for (std::size_t k = 1; k < q.size(); ++k)
    EXPECT_LE(q[k].bits_per_minute(), q[k - 1].bits_per_minute());
  // asked once, not again
  const std::vector<Report> told{height(500)};
  for (const auto& again : next_questions(b, s, planes, told, plain, Visibility::cloud, asking))
    EXPECT_FALSE(again.act == Do::tell && again.ask.cue == Cue::height);
}
}  // namespace
}  // namespace lodeway::belief
