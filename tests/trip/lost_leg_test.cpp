// What the lost card says of a leg, on a slope made by hand: 15 degrees, falling east; its figures
// are by hand.
#include "lodeway/trip/lost_leg.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "lodeway/numeric/parallel.hpp"

namespace lodeway::trip {
namespace {

using mapdata::Kind;

struct LostOnASlope : testing::Test {
  static constexpr double size_m = 8000, cell_m = 10, slope_deg = 15, magnetic_off_deg = 4;

  LostOnASlope() {
    const int n = static_cast<int>(size_m / cell_m);
    ground.elevation = terrain::Elevation({0, size_m, cell_m, n, n});
    for (int r = 0; r < n; ++r) {
      for (int c = 0; c < n; ++c) ground.elevation[r, c] = static_cast<float>(height_at_m(c));
    }
    for (const auto kind : {Kind::path, Kind::road, Kind::cliff}) {
      auto& t = ground.kinds[kind];
      t.leads = t.catches = t.ticks = kind != Kind::cliff;
      t.seen_from_m.fill(200);
      t.recognised.fill(0.95);
    }
    ground.kinds[Kind::cliff].forbids = true;
    auto& leg = plan.way.legs.emplace_back();
    leg.course.kind = walking::LegKind::bearing;
    leg.course.line = {{4005, 3805}, {4005, 4405}};  // due north, from a cell's middle
    leg.figures.length_m = 600;
    leg.figures.minutes = 12;
    leg.grid_bearing = units::GridBearing::degrees(0);
    leg.magnetic_bearing = units::MagneticBearing::degrees(magnetic_off_deg);
    plan.trip.request.party.max_slope_deg = 40;
  }
  /// Of the middle of column c.
  static double height_at_m(int c) {
    return 3000 - std::tan(slope_deg * std::numbers::pi / 180) * cell_m * (c + 0.5);
  }
  void line(Kind kind, std::vector<earth::GridPoint> points) {
    ground.map.lines.push_back({{kind, ""}, std::move(points)});
  }
  LostLeg lost() {
    numeric::Serial serial;
    const walking::Cover cover(ground, plan.trip.request);
    const auto planes =
        sight::cue_planes(ground, cover, lost_window(plan.way.legs[0].course.line), serial);
    return lost_leg(plan, 0, planes, sight::Chances());
  }
  walking::Ground ground;
  Plan plan;
};

TEST_F(LostOnASlope, EachRowAsTheGroundIs) {
  line(Kind::path, {{3935, 1000}, {3935, 7000}});  // 70 m to the left, all along
  line(Kind::road, {{4125, 1000}, {4125, 7000}});  // 120 m to the right
  const auto leg = lost();
  ASSERT_EQ(leg.rows.size(), 3U);  // at 0, 200 and 400 m; the next would be its end
  EXPECT_NEAR(leg.ten_minutes_m, 500, 1e-9);
  for (std::size_t k = 0; k < leg.rows.size(); ++k) {
    const auto& row = leg.rows[k];
    EXPECT_NEAR(row.along_m, 200 * static_cast<double>(k), 1e-9);
    EXPECT_NEAR(row.height_m, height_at_m(400), 0.13);  // the steps of the planes
    ASSERT_TRUE(row.falls);
    EXPECT_NEAR(row.falls->in_degrees(), 90 + magnetic_off_deg, 1.5);
    EXPECT_NEAR(row.slope_deg, slope_deg, 0.5);
    EXPECT_EQ(row.steepness, "moderate");
    const double rise_m = 60 * std::tan(slope_deg * std::numbers::pi / 180);
    EXPECT_NEAR(row.left_rise_m, rise_m, 0.26);  // of the cell 60 m off, both to 0.13 m
    EXPECT_NEAR(row.right_rise_m, -rise_m, 0.26);
    ASSERT_TRUE(row.left && row.right);
    EXPECT_EQ(row.left->what, "path");
    EXPECT_EQ(row.left->away_m, 70);
    EXPECT_EQ(row.right->what, "road");
    EXPECT_EQ(row.right->away_m, 120);
    EXPECT_FALSE(row.keep_off());
  }
}

TEST_F(LostOnASlope, InFeetARowEach600) {
  plan.trip.lengths = LengthUnit::imperial;
  const auto rows = lost().rows;
  ASSERT_EQ(rows.size(), 4U);  // 600 m are 1969 ft: the next, at 2400 ft, is beyond
  EXPECT_NEAR(rows[3].along_m, 1800 * 0.3048, 1e-9);
}

// Dangers before what is nearer and harmless.
TEST_F(LostOnASlope, ACliffBeforeAPath) {
  line(Kind::path, {{4035, 1000}, {4035, 7000}});
  line(Kind::cliff, {{4105, 1000}, {4105, 7000}});
  const auto row = lost().rows.at(1);
  ASSERT_TRUE(row.right);
  EXPECT_EQ(row.right->what, "cliff");
  EXPECT_EQ(row.right->away_m, 100);
  EXPECT_TRUE(row.keep_off());
  EXPECT_FALSE(row.left);
}

TEST_F(LostOnASlope, AVoidHasNoFigures) {
  auto& z = ground.elevation;
  for (int r = 350; r < 430; ++r) {
    for (int c = 380; c < 420; ++c) z[r, c] = std::numeric_limits<float>::quiet_NaN();
  }
  const auto row = lost().rows.at(1);
  EXPECT_TRUE(std::isnan(row.height_m));
  EXPECT_FALSE(row.falls || row.left || row.right);
}

// A broad road below, right along the slope: who walks downhill meets it from wherever they are.
TEST_F(LostOnASlope, DownhillToARoadIsAMoveThatWorks) {
  line(Kind::road, {{5200, 0}, {5200, 7990}});
  const auto leg = lost();
  ASSERT_FALSE(leg.moves.empty());
  EXPECT_TRUE(leg.by_fall.empty());
  EXPECT_NE(leg.moves[0].find("a path, track or edge"), std::string::npos) << leg.moves[0];
  EXPECT_LE(leg.downhill_barred, 0.01);
}

// The same with a cliff above the road: none may go down, and that is said.
TEST_F(LostOnASlope, NeverDownToACliff) {
  line(Kind::road, {{5200, 0}, {5200, 7990}});
  line(Kind::cliff, {{5000, 0}, {5000, 7990}});
  const auto leg = lost();
  for (const auto& move : leg.moves) {
    EXPECT_EQ(move.find("downhill"), std::string::npos) << move;
  }
  EXPECT_GT(leg.downhill_barred, 0.5);
}

TEST_F(LostOnASlope, NothingToMeetNoMove) {
  const auto leg = lost();
  EXPECT_TRUE(leg.moves.empty());
  EXPECT_TRUE(leg.by_fall.empty());
}

TEST(Steepness, WordsAtTheirBounds) {
  EXPECT_EQ(steepness_words(4.9, Language::english), "flat");
  EXPECT_EQ(steepness_words(5, Language::english), "gentle");
  EXPECT_EQ(steepness_words(12, Language::english), "moderate");
  EXPECT_EQ(steepness_words(20, Language::english), "steep");
  EXPECT_EQ(steepness_words(30, Language::english), "very steep");
  EXPECT_EQ(steepness_words(30, Language::german), "sehr steil");
}

}  // namespace
}  // namespace lodeway::trip
