#include "lodeway/terrain/visibility.hpp"

#include <array>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "terrain/ground.hpp"

namespace lodeway::terrain {
namespace {

// By the figure of the Earth: d^2 / (2 R) = 7.848 m at 10 km, of which the air takes back 13 %.
TEST(Visibility, CurveAndRefraction) {
  EXPECT_NEAR(sinks_m(10000, 0), 1e8 / (2 * 6371008.8), 1e-12);
  EXPECT_NEAR(sinks_m(10000, 0.13), 6.8278, 1e-4);
}

// On level ground everything within the horizon sqrt(2 R h / (1 - k)) is seen, nothing beyond.
TEST(Visibility, HorizonOnLevelGround) {
  const Elevation sea(Frame{0, 20000, 100, 200, 200}, 0);
  const earth::GridPoint eye{10050, 10050};
  for (const double height : {1.6, 4.0, 6.0}) {
    const double horizon = std::sqrt(2 * earth_radius_m * height / 0.87);
    const auto seen = viewshed(sea, eye, {height});
    for (int r = 0; r < 200; ++r) {
      for (int c = 0; c < 200; ++c) {
        const double d = earth::grid_distance_m(eye, sea.frame().centre(r, c));
        // Between the horizon of the cell nearer in and its own the chord of the planes decides.
        if (std::abs(d - horizon) < 150) continue;
        ASSERT_EQ((seen[r, c]), d < horizon ? Seen::seen : Seen::hidden) << height << " " << d;
        ASSERT_EQ(sees(sea, eye, sea.frame().centre(r, c), {height}), (seen[r, c]));
      }
    }
  }
}

// A wall across the view: behind it only what stands above the line over its top is seen. No curve
// here (refraction 1), so the line is straight: at twice the wall's distance, twice its height over
// the eye.
TEST(Visibility, WallHidesByProportion) {
  Elevation z(Frame{0, 210, 10, 21, 41}, 0);
  for (int r = 0; r < 21; ++r) z[r, 10] = 7;  // 10 cells from the eye, 5 m above it
  const earth::GridPoint eye{5, 105};
  const auto with_target = [&](double t) { return viewshed(z, eye, {2, t, 0, 1})[10, 20]; };
  EXPECT_EQ(with_target(11.99), Seen::hidden);  // 2 + 2 * 5 = 12
  EXPECT_EQ(with_target(12.01), Seen::seen);
  EXPECT_EQ((viewshed(z, eye, {2, 0, 0, 1})[10, 10]), Seen::seen);
  EXPECT_EQ((viewshed(z, eye, {2, 12.01, 150, 1})[10, 20]), Seen::out_of_reach);
}

TEST(Visibility, VoidsMakeItUncertain) {
  Elevation z(Frame{0, 210, 10, 21, 41}, 0);
  const earth::GridPoint eye{5, 105};
  z[10, 10] = NAN;
  const auto seen = viewshed(z, eye, {2, 0, 0, 1});
  EXPECT_EQ((seen[10, 9]), Seen::seen);
  EXPECT_EQ((seen[10, 10]), Seen::unknown);
  EXPECT_EQ((seen[10, 30]), Seen::unknown);
  EXPECT_EQ((seen[0, 30]), Seen::seen);
  EXPECT_EQ(sees(z, eye, {305, 105}, {2}), Seen::unknown);
  for (int r = 0; r < 21; ++r) z[r, 20] = 50;
  EXPECT_EQ((viewshed(z, eye, {2, 0, 0, 1})[10, 30]), Seen::hidden);  // void or not
  const std::array eyes{eye, earth::GridPoint{5, 5}, earth::GridPoint{-5, 5}};
  EXPECT_EQ((seen_from(z, eyes, {2, 0, 0, 1})[3, 3]), 2);  // the third is outside the ground
  EXPECT_EQ((viewshed(z, z.frame().centre(10, 10))[5, 5]), Seen::unknown);
  EXPECT_TRUE(viewshed(Elevation{}, {0, 0}).empty());
  EXPECT_EQ((viewshed(Elevation(Frame{0, 1, 1, 1, 1}, 5), {0.5, 0.5})[0, 0]), Seen::seen);
}

RC_GTEST_PROP(VisibilityLaw, MirroredTurnedRaisedAndTaller, ()) {
  auto z =
      test::noise(19, 24, *rc::gen::arbitrary<std::uint64_t>(), 40, *rc::gen::element(0.0, 0.05));
  z[7, 11] = 20;
  const Sight sight{4, 3};
  const auto seen = viewshed(z, z.frame().centre(7, 11), sight);
  RC_ASSERT(viewshed(test::mirrored(z), z.frame().centre(7, 12), sight) == test::mirrored(seen));
  const auto turn = test::turned(z);
  const auto turned = viewshed(turn, turn.frame().centre(11, 18 - 7), sight);
  RC_ASSERT(std::ranges::equal(turned.cells(), test::turned(seen).cells()));
  const auto taller = viewshed(z, z.frame().centre(7, 11), {4, 9});
  for (std::size_t i = 0; i < seen.cells().size(); ++i) {
    if (seen.cells()[i] == Seen::seen) RC_ASSERT(taller.cells()[i] == Seen::seen);
  }
  for (auto& v : z.cells()) v += 512;
  RC_ASSERT(viewshed(z, z.frame().centre(7, 11), sight) == seen);
}

// A sight is the same both ways when eye and target change places; only touching sights may differ.
// Seen from many is the count of those that see it singly.
RC_GTEST_PROP(VisibilityLaw, FromManyIsTheSumOfSingles, ()) {
  const auto ground = test::hills(21, 17, *rc::gen::inRange<std::uint64_t>(0, 1000));
  std::vector<earth::GridPoint> eyes;
  for (int i = 0; i < *rc::gen::inRange(0, 5); ++i) {
    eyes.push_back(ground.frame().centre(*rc::gen::inRange(0, 21), *rc::gen::inRange(0, 17)));
  }
  Raster<std::uint16_t> judge(ground.frame());
  for (const auto& eye : eyes) {
    const auto one = viewshed(ground, eye);
    for (std::size_t k = 0; k < judge.cells().size(); ++k) {
      if (one.cells()[k] == Seen::seen) ++judge.cells()[k];
    }
  }
  RC_ASSERT(seen_from(ground, eyes) == judge);
}

RC_GTEST_PROP(VisibilityLaw, SightsAreMutual, ()) {
  const auto seed = *rc::gen::arbitrary<std::uint64_t>();
  const auto z = test::hills(40, 40, seed);
  numeric::Random random(seed, 1);
  for (int k = 0; k < 30; ++k) {
    const earth::GridPoint a{400 * random.uniform(), 400 * random.uniform()};
    const earth::GridPoint b{400 * random.uniform(), 400 * random.uniform()};
    RC_ASSERT(sees(z, a, b, {2, 1}) == sees(z, b, a, {1, 2}));
  }
}

// Two ways to the same question: planes over cell centres, and a ray over interpolated ground. They
// may differ where a sight only just passes; on smooth ground that is a small share.
TEST(Visibility, PlanesAgreeWithRays) {
  int same = 0, all = 0;
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const auto z = test::hills(100, 100, seed);
    const auto eye = z.frame().centre(50, 40);
    const auto seen = viewshed(z, eye);
    for (int r = 0; r < 100; ++r) {
      for (int c = 0; c < 100; ++c, ++all) {
        same += sees(z, eye, z.frame().centre(r, c)) == seen[r, c] ? 1 : 0;
      }
    }
  }
  RecordProperty("same", same);
  EXPECT_GT(same, 0.97 * all);
}

}  // namespace
}  // namespace lodeway::terrain
