// The rest of a trip from another place and hour.
#include "lodeway/trip/rest_of_trip.hpp"

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

using namespace std::chrono_literals;

Trip round() {
  Trip trip;
  trip.name = "Round";
  trip.start = 9h;
  for (const auto& [name, east] :
       {std::pair{"Bridge", 0.0}, {"Pike", 1000.0}, {"Gap", 2000.0}, {"bridge", 0.0}}) {
    walking::Waypoint p;
    p.name = name;
    p.at = {east, 0};
    p.stretch = walking::Stretch::bearing;
    p.stay_min = 10;
    trip.request.points.push_back(p);
  }
  return trip;
}

TEST(RestOfTrip, BeginsHereAndKeepsWhatIsLeft) {
  const auto rest = rest_of(round(), {{1500, 300}, "the wall", 14h + 30min, 2,
                                      mapdata::Visibility::cloud});
  const auto& points = rest.request.points;
  ASSERT_EQ(points.size(), 3U);
  EXPECT_EQ(points[0].name, "the wall");
  EXPECT_EQ(points[0].at, (earth::GridPoint{1500, 300}));
  EXPECT_FALSE(points[0].safe);  // nobody is safe where they were lost
  EXPECT_EQ(points[1].name, "Gap");
  EXPECT_EQ(points[1].stretch, walking::Stretch::find);
  EXPECT_EQ(points[1].stay_min, 10);
  EXPECT_EQ(points[2].stretch, walking::Stretch::bearing);
  EXPECT_TRUE(points[2].safe);
  EXPECT_EQ(rest.start, 14h + 30min);
  EXPECT_EQ(rest.request.party.visibility, mapdata::Visibility::cloud);
  EXPECT_EQ(rest.name, "Round, from the wall");
}

TEST(RestOfTrip, ThePlaceToGoOnToByName) {
  EXPECT_EQ(*point_to_go_on_to(round(), "gap"), 2U);
  EXPECT_EQ(*point_to_go_on_to(round(), "Bridge"), 3U);  // the end, not the start
  const auto none = point_to_go_on_to(round(), "Moor");
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().what, "next: expected one of \"Pike\", \"Gap\", \"bridge\", got \"Moor\"");
}

TEST(RestOfTrip, ThePlaceAfterALeg) {
  std::vector<walking::Leg> legs(4);
  const double ends[] = {500, 1000, 2000, 0};
  for (std::size_t k = 0; k < 4; ++k)
    legs[k].course.line = {{k == 0 ? 0 : ends[k - 1], 0}, {ends[k], 0}};
  EXPECT_EQ(point_after_leg(round(), legs, 0), 1U);
  EXPECT_EQ(point_after_leg(round(), legs, 1), 1U);
  EXPECT_EQ(point_after_leg(round(), legs, 2), 2U);
  EXPECT_EQ(point_after_leg(round(), legs, 3), 3U);
}

}  // namespace
}  // namespace lodeway::trip
