#include "lodeway/terrain/landform.hpp"

#include <functional>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "terrain/ground.hpp"

namespace lodeway::terrain {
namespace {

constexpr int n = 41;

/// The form in the middle of ground given by height over (cells east, cells north) of the middle.
Landform middle_of(const std::function<double(double, double)>& height) {
  Elevation z(Frame{0, 10.0 * n, 10, n, n});
  for (int r = 0; r < n; ++r) {
    for (int c = 0; c < n; ++c) z[r, c] = static_cast<float>(10 * height(c - n / 2, n / 2 - r));
  }
  return landforms(z, {150, 1.0})[n / 2, n / 2];
}

// Each form on a ground whose eight directions can be read off by hand; counts are (lower, higher)
// and the form is that of figure 4 of the paper.
TEST(Landform, OneGroundForEachForm) {
  EXPECT_EQ(middle_of([](double, double) { return 5.0; }), Landform::flat);
  EXPECT_EQ(middle_of([](double x, double y) { return 0.3 * x + 0.1 * y; }), Landform::slope);
  EXPECT_EQ(middle_of([](double x, double y) { return -std::hypot(x, y); }), Landform::summit);
  EXPECT_EQ(middle_of([](double x, double y) { return std::hypot(x, y); }), Landform::pit);
  EXPECT_EQ(middle_of([](double x, double) { return -std::abs(x); }), Landform::ridge);  // (6, 0)
  EXPECT_EQ(middle_of([](double x, double) { return std::abs(x); }), Landform::valley);  // (0, 6)
  // Level to the west, falling or rising to the east: (3, 0) and (0, 3).
  EXPECT_EQ(middle_of([](double x, double) { return -std::max(0.0, x); }), Landform::shoulder);
  EXPECT_EQ(middle_of([](double x, double) { return std::max(0.0, x); }), Landform::footslope);
  // A crest that falls west more steeply than its sides fall from it: (5, 3); and upside down.
  EXPECT_EQ(middle_of([](double x, double y) { return x - 0.5 * std::abs(y); }), Landform::spur);
  EXPECT_EQ(middle_of([](double x, double y) { return x + 0.5 * std::abs(y); }), Landform::hollow);
}

// Higher and lower change places when the ground is turned upside down; the table must follow.
TEST(Landform, TableIsItsOwnOppositeUpsideDown) {
  const auto opposite = [](Landform f) {
    switch (f) {
      case Landform::summit:
        return Landform::pit;
      case Landform::pit:
        return Landform::summit;
      case Landform::ridge:
        return Landform::valley;
      case Landform::valley:
        return Landform::ridge;
      case Landform::shoulder:
        return Landform::footslope;
      case Landform::footslope:
        return Landform::shoulder;
      case Landform::spur:
        return Landform::hollow;
      case Landform::hollow:
        return Landform::spur;
      default:
        return f;
    }
  };
  for (int lower = 0; lower <= 8; ++lower) {
    for (int higher = 0; lower + higher <= 8; ++higher) {
      EXPECT_NE(landform_of(lower, higher), Landform::unknown);
      EXPECT_EQ(landform_of(higher, lower), opposite(landform_of(lower, higher)));
    }
  }
}

RC_GTEST_PROP(LandformLaw, MirroredTurnedAndRaised, ()) {
  const auto z = test::hills(30, 25, *rc::gen::arbitrary<std::uint64_t>());
  const LandformScale scale{80, 2};
  const auto forms = landforms(z, scale);
  RC_ASSERT(landforms(test::mirrored(z), scale) == test::mirrored(forms));
  // Turned: compared cell by cell, for the two frames differ.
  const auto turn = landforms(test::turned(z), scale), expected = test::turned(forms);
  RC_ASSERT(std::ranges::equal(turn.cells(), expected.cells()));
}

TEST(Landform, RimAndVoidsAreUnknown) {
  auto z = test::hills(20, 20, 9);
  z[10, 10] = NAN;
  z[3, 12] = std::numeric_limits<float>::infinity();
  const auto forms = landforms(z);
  EXPECT_EQ((forms[10, 10]), Landform::unknown);
  EXPECT_EQ((forms[3, 12]), Landform::unknown);
  EXPECT_EQ((forms[0, 5]), Landform::unknown);    // nothing to the north
  EXPECT_NE((forms[11, 10]), Landform::unknown);  // the void is looked over
  EXPECT_EQ((landforms(Elevation(Frame{0, 1, 1, 1, 1}, 5))[0, 0]), Landform::unknown);
  EXPECT_EQ((landforms(Elevation(Frame{0, 9, 1, 9, 9}, NAN))[4, 4]), Landform::unknown);
}

}  // namespace
}  // namespace lodeway::terrain
