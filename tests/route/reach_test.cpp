#include "lodeway/route/choose/reach.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "lodeway/numeric/random.hpp"

namespace lodeway::route {
namespace {

using earth::GridPoint;

bool holds(const walking::Box& box, GridPoint p) { return box.meets(walking::Box::about(p)); }

// Every place from which both ends are together no farther than the long axis lies in the ellipse
// (its definition), and so in the box.
TEST(Reach, HoldsTheEllipsesAndWhatLiesBeyondThem) {
  numeric::Random random(5);
  for (int k = 0; k < 200; ++k) {
    const GridPoint a{20'000 * random.uniform(), 20'000 * random.uniform()},
        b{20'000 * random.uniform(), 20'000 * random.uniform()};
    walking::Request request;
    request.points = {{.name = "", .at = a}, {.name = "", .at = b}};
    request.safe = {{"farm", {a.east_m - 9'000, a.north_m}}};
    const auto box = reach_of(request);
    EXPECT_TRUE(holds(box, request.safe[0].at));
    const double axis = first_reach_m(earth::grid_distance_m(a, b));
    for (int i = 0; i < 50; ++i) {
      const GridPoint p = 0.5 * (a + b) + GridPoint{2 * axis * (random.uniform() - 0.5),
                                                    2 * axis * (random.uniform() - 0.5)};
      if (earth::grid_distance_m(a, p) + earth::grid_distance_m(p, b) > axis) continue;
      for (const double angle : {0.0, 0.5, 1.0, 1.5})
        EXPECT_TRUE(holds(box, p + GridPoint{beyond_reach_m * std::cos(angle * std::numbers::pi),
                                             beyond_reach_m * std::sin(angle * std::numbers::pi)}));
    }
  }
}

bool leads_beyond(const terrain::Frame& piece, const terrain::Frame& whole, double off_min) {
  walking::Course course;
  course.line = {{4'900, 5'000}, {5'100, 5'000}};
  const walking::Course* const courses[] = {&course};
  std::optional<walking::WayOff> off;
  if (off_min > 0) {
    off.emplace();
    off->minutes = off_min;
    off->line = {{5'000, 5'000}, {5'100, 5'000}};
  }
  return leads_off_beyond(piece, whole, courses, {&off, 1}, 0, 0.5);
}

// The middle lies 2 km from the cut, which at 0.5 s a metre nobody reaches within 1000 s.
TEST(Reach, AWayOffIsLookedForBeyondWhereItCouldBeNearer) {
  const terrain::Frame whole{0, 10'000, 10, 1000, 1000}, west{0, 10'000, 10, 1000, 700};
  EXPECT_FALSE(leads_beyond(west, whole, 16));
  EXPECT_TRUE(leads_beyond(west, whole, 17));
  EXPECT_FALSE(leads_beyond(whole, whole, 17));
  EXPECT_TRUE(leads_beyond(west, whole, 0));  // none was found
  EXPECT_FALSE(leads_beyond(whole, whole, 0));
}

}  // namespace
}  // namespace lodeway::route
