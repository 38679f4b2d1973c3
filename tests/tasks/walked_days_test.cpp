// The clock is counted of parties that walk the way. A way that cannot be walked is a fault with
// one line, and no clock of another kind is put in its place.
#include "lodeway/tasks/walked_days.hpp"

#include <gtest/gtest.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/tasks/derive.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/walking/ground_area.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;

TEST(WalkedDays, ALegThatCannotBeWalkedIsAFaultAndNoOtherClock) {
  auto g = fells::make_skarrow_fells();
  g.kinds = io::built_in_rules().table();
  ASSERT_TRUE(tasks::derive_from_relief(g));
  const auto trip = io::read_trip(support::tests_folder() + "/../examples/to-the-hut-clear.toml",
                                  walking::area_of(g));
  ASSERT_TRUE(trip);
  const route::WayFinder finder(g);
  tasks::Threads threads;
  const route::Wishes wishes{trip::speech_of(*trip), 0.4, trip->min_certainty};
  auto found = finder.find(trip->request, wishes, threads);
  ASSERT_TRUE(found);
  const auto daylight = trip::daylight_of(g, *trip, trip->request.points.front().at);
  ASSERT_TRUE(daylight);
  auto& way = found->ways.front();
  ASSERT_GE(way.way.legs.size(), 2U);
  const tasks::DayWalk day(found->on, {&way.way}, threads);
  const auto days = day.walk(*trip, way.way, way.escapes, *daylight, threads, 20);
  ASSERT_TRUE(days);
  EXPECT_EQ(days->parties, 20U);
  auto& line = way.way.legs[1].course.line;
  line.assign(2, line.front());  // a leg of no length
  const auto fault = day.walk(*trip, way.way, way.escapes, *daylight, threads, 20);
  ASSERT_FALSE(fault);
  EXPECT_EQ(fault.error().code, FaultCode::bad_input);
  EXPECT_EQ(fault.error().what, "leg 2: expected a line of two places or more that are apart");
}

}  // namespace
