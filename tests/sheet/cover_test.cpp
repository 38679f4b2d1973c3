// Which sheets a way needs, and that they are true to scale.
#include "lodeway/sheet/map/cover.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

using earth::GridPoint;

trip::PlannedWay way_through(const std::vector<GridPoint>& points) {
  trip::PlannedWay out;
  for (std::size_t i = 1; i < points.size(); ++i) {
    out.legs.emplace_back().course.line = {points[i - 1], points[i]};
  }
  return out;
}

/// Each place of the way, and the way 5 mm to both sides of it, on one sheet 11 mm from its frame.
void expect_covered(const trip::PlannedWay& way, const std::vector<SheetPlace>& sheets) {
  ASSERT_FALSE(sheets.empty());
  const auto& f = sheets.front().frame;
  std::vector<GridPoint> places;
  for (const auto& leg : way.legs) {
    for (std::size_t i = 1; i < leg.course.line.size(); ++i) {
      const auto a = leg.course.line[i - 1], b = leg.course.line[i];
      const int n = std::max(1, static_cast<int>(f.mm(earth::grid_distance_m(a, b))));
      for (int k = 0; k <= n; ++k) places.push_back(a + (static_cast<double>(k) / n) * (b - a));
    }
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto from = i < 5 ? 0 : i - 5, to = std::min(places.size() - 1, i + 5);
    const bool held = std::ranges::any_of(sheets, [&](const SheetPlace& s) {
      return s.frame.near(places[from], -11) && s.frame.near(places[i], -11) &&
             s.frame.near(places[to], -11);
    });
    EXPECT_TRUE(held) << i;
  }
}

TEST(MapFrame, ScaleIsTrue) {
  for (const double scale : {10000.0, 25000.0, 40000.0, 63360.0}) {
    const auto sheets = cover(plan_of(3).way, scale, trip::Paper::a4, false);
    ASSERT_TRUE(sheets);
    const auto& f = sheets->front().frame;
    const auto a = f.on_page({480000, 6048000}), b = f.on_page({481000, 6048000});
    EXPECT_NEAR(b.x - a.x, 1e6 / scale, 1e-9);  // 1 km: 40.000 mm at 1:25 000, 15.7828 at 1:63 360
    const auto back = f.on_ground(b);
    EXPECT_NEAR(back.east_m, 481000, 1e-6);
  }
}

TEST(Cover, HoldsTheWholeWay) {
  const auto way = plan_of(200).way;
  for (const auto paper :
       {trip::Paper::a5, trip::Paper::a4, trip::Paper::a3, trip::Paper::letter}) {
    const auto sheets = cover(way, 10000, paper);
    ASSERT_TRUE(sheets) << sheets.error().what;
    expect_covered(way, *sheets);
  }
}

// Straight ways: each sheet after the first brings its free length less the overlap of 15 mm.
TEST(Cover, AsFewAsTheLengthAsksFor) {
  const auto upright = empty_frame(10000, trip::Paper::a5, false),
             lying = empty_frame(10000, trip::Paper::a5, true);
  const double long_m = 20000;
  const auto needed = [&](double free_mm) {
    return static_cast<std::size_t>(std::ceil((long_m / 10 - overlap_mm) / (free_mm - overlap_mm)));
  };
  const auto north = way_through({{480000, 6048000}, {480000, 6048000 + long_m}}),
             east = way_through({{480000, 6048000}, {480000 + long_m, 6048000}});
  const double most_north = std::max(upright.h, lying.h) - 2 * inside_mm,
               most_east = std::max(upright.w, lying.w) - 2 * inside_mm;
  // Steps along the way are whole: one sheet more at the most in such a row.
  const auto up = cover(north, 10000, trip::Paper::a5), side = cover(east, 10000, trip::Paper::a5);
  ASSERT_TRUE(up && side);
  EXPECT_LE(up->size(), needed(most_north) + 1);
  EXPECT_GE(up->size(), needed(most_north));
  EXPECT_LE(side->size(), needed(most_east) + 1);
  expect_covered(north, *up);
  expect_covered(east, *side);
  EXPECT_GT(up->front().frame.page_h, up->front().frame.page_w);      // upright for a way north
  EXPECT_GT(side->front().frame.page_w, side->front().frame.page_h);  // lying for a way east
  // Forced into one form it needs more.
  EXPECT_GT(cover(east, 10000, trip::Paper::a5, false)->size(), side->size());
}

TEST(Cover, NeverMoreThanEitherFormAlone) {
  for (int k = 0; k < 24; ++k) {
    std::vector<GridPoint> points{{480000, 6048000}};
    for (int i = 0; i < 12; ++i)
      points.push_back(points.back() + GridPoint{1500 * std::cos(0.7 * k + 0.9 * i * (k % 3)),
                                                 1500 * std::sin(0.7 * k + 0.5 * i)});
    const auto way = way_through(points);
    const auto mixed = cover(way, 10000, trip::Paper::a4),
               upright = cover(way, 10000, trip::Paper::a4, false),
               lying = cover(way, 10000, trip::Paper::a4, true);
    ASSERT_TRUE(mixed && upright && lying);
    EXPECT_LE(mixed->size(), std::min(upright->size(), lying->size()) + 1) << k;
    expect_covered(way, *mixed);
  }
}

TEST(Cover, TheWayBackNeedsNoSheetTwice) {
  const auto there = way_through({{480000, 6048000}, {486000, 6048000}}),
             and_back = way_through({{480000, 6048000}, {486000, 6048000}, {480000, 6048030}});
  const auto one = cover(there, 10000, trip::Paper::a5),
             both = cover(and_back, 10000, trip::Paper::a5);
  ASSERT_TRUE(one && both);
  EXPECT_GT(one->size(), 2U);
  EXPECT_LE(both->size(), one->size() + 1);
  expect_covered(and_back, *both);
}

TEST(Cover, EachSheetNamesTheNextWhereTheWayLeavesIt) {
  const auto way = way_through({{480000, 6048000}, {488000, 6049000}});
  const auto sheets = cover(way, 10000, trip::Paper::a5);
  ASSERT_TRUE(sheets);
  ASSERT_GE(sheets->size(), 3U);
  for (std::size_t i = 0; i < sheets->size(); ++i) {
    const auto& s = (*sheets)[i];
    EXPECT_EQ(s.legs, std::vector<std::size_t>{0});
    for (const std::size_t other : {i - 1, i + 1}) {
      if (other >= sheets->size()) continue;  // also i - 1 of the first
      EXPECT_TRUE(std::ranges::any_of(s.goes_on, [&](const GoesOn& g) { return g.sheet == other; }))
          << i << " to " << other;
    }
    for (const auto& g : s.goes_on) {  // on the frame
      const double off = std::min({std::abs(g.at.x - s.frame.at.x), std::abs(g.at.y - s.frame.at.y),
                                   std::abs(g.at.x - s.frame.at.x - s.frame.w),
                                   std::abs(g.at.y - s.frame.at.y - s.frame.h)});
      EXPECT_LT(off, 1e-3);
    }
  }
}

TEST(Cover, FiveHundredSheetsAreRefusedWithAScaleThatDoes) {
  auto plan = plan_of(1);
  // 520 km at 1:10 000 is 52 m of paper: about 500 sheets of A5.
  plan.way.legs[0].course.line = {{480000, 6048000}, {850000, 6418000}};
  const auto refused = cover(plan.way, 10000, trip::Paper::a5);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, FaultCode::too_large);
  const auto& what = refused.error().what;
  const auto at = what.rfind("1:");
  ASSERT_NE(at, std::string::npos) << what;
  const double proposed = std::stod(what.substr(at + 2));
  const auto fits = cover(plan.way, proposed, trip::Paper::a5);
  ASSERT_TRUE(fits) << proposed;
  EXPECT_LE(fits->size(), 8U);
  for (const double nonsense : {0.0, -1.0, std::nan(""), 1 / 0.0})
    EXPECT_FALSE(cover(plan.way, nonsense, trip::Paper::a4, false)) << nonsense;
}

TEST(Numbers, AsPeopleCountThem) {
  EXPECT_EQ(numbers_text({0, 1, 2, 6}), "1–3, 7");
  EXPECT_EQ(numbers_text({6, 0, 0, 1}), "1, 2, 7");
  EXPECT_EQ(numbers_text({4}), "5");
  EXPECT_EQ(numbers_text({}), "");
}

}  // namespace
}  // namespace lodeway::sheet
