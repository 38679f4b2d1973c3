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

/// A place 5 km from the west side, left by a route of these minutes; 0: none was found.
bool leads_beyond(const terrain::Frame& piece, const terrain::Frame& whole, double minutes) {
  EscapesOfWay way(1);
  if (minutes > 0) {
    auto& escape = way[0].emplace_back();
    escape.minutes = minutes;
    escape.legs.emplace_back().course.line = {{5000, 5000}, {5000, 4000}};
  }
  return leads_off_beyond(piece, whole, {way}, 0.5);
}

// The middle lies 2 km from the cut, which at 0.5 s a metre nobody reaches within 1000 s.
TEST(Reach, AnEscapeRouteIsLookedForBeyondWhereItCouldBeNearer) {
  const terrain::Frame whole{0, 10'000, 10, 1000, 1000}, west{0, 10'000, 10, 1000, 700};
  EXPECT_FALSE(leads_beyond(west, whole, 16));
  EXPECT_TRUE(leads_beyond(west, whole, 17));
  EXPECT_FALSE(leads_beyond(whole, whole, 17));
  EXPECT_TRUE(leads_beyond(west, whole, 0));  // none was found
  EXPECT_FALSE(leads_beyond(whole, whole, 0));
}

}  // namespace
}  // namespace lodeway::route
