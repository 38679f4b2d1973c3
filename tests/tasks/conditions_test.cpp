// The example's round when the day changes: what must move moves, and nothing else.
#include "lodeway/tasks/conditions.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/tasks/derive.hpp"
#include "lodeway/walking/ground_area.hpp"
#include "support/support.hpp"

namespace lodeway::tasks {
namespace {

struct Round : testing::Test {
  static const walking::Ground& fells() {
    static const auto made = [] {
      auto g = fells::make_skarrow_fells();
      g.kinds = io::built_in_rules().table();
      EXPECT_TRUE(derive_from_relief(g));
      return g;
    }();
    return made;
  }
  static const route::WayFinder& finder() {
    static const route::WayFinder made(fells());
    return made;
  }
  static trip::Trip round() {
    auto trip = io::read_trip(support::tests_folder() + "/../examples/skarrow-round.toml",
                              walking::area_of(fells()));
    EXPECT_TRUE(trip) << (trip ? "" : trip.error().what);
    return trip ? *std::move(trip) : trip::Trip{};
  }
  void ask(const trip::Trip& trip) {
    auto found = plan_ways(fells(), finder(), trip);
    ASSERT_TRUE(found) << found.error().what;
    ways = *std::move(found);
    auto said = conditions_of(fells(), finder(), ways);
    ASSERT_TRUE(said) << said.error().what;
    rows = *std::move(said);
    ASSERT_EQ(rows.size(), static_cast<std::size_t>(condition_count));
  }
  [[nodiscard]] const ConditionRow& row(Condition c) const {
    return rows[static_cast<std::size_t>(c)];
  }
  PlannedWays ways;
  std::vector<ConditionRow> rows;
};

TEST_F(Round, WhatMustMoveMovesAndNothingElse) {
  ask(round());
  const auto& plan = ways.ways[ways.picked].plan;
  const auto &planned = row(Condition::as_planned), &cloud = row(Condition::other_sight),
             &late = row(Condition::hour_late), &up = row(Condition::streams_up),
             &slower = row(Condition::slower), &snow = row(Condition::snow);
  EXPECT_EQ(planned.verdict, plan.verdict);
  EXPECT_EQ(planned.certainty, plan.way.certainty);
  EXPECT_EQ(planned.end, plan.schedule.end);
  EXPECT_LT(cloud.certainty, planned.certainty);
  EXPECT_EQ(late.end, planned.end + trip::Clock{60});
  EXPECT_EQ(late.certainty, planned.certainty);
  EXPECT_GT(slower.minutes, 1.05 * planned.minutes);
  EXPECT_LT(slower.minutes, planned.minutes / 0.8 + 1e-6);  // climbing takes what it takes
  EXPECT_LT(snow.certainty, cloud.certainty);
  // Each ford is gone round, or its leg does not go.
  double more = 0;
  bool no_round = false;
  for (const auto& leg : plan.way.legs) {
    for (const auto& ford : leg.fords) {
      if (ford.round)
        more += ford.round->minutes;
      else
        no_round = true;
    }
  }
  EXPECT_TRUE(more > 0 || no_round);  // the round has a ford
  EXPECT_NEAR(up.minutes, planned.minutes + more, 1e-9);
  EXPECT_EQ(std::ranges::any_of(up.verdict.reasons,
                                [](const trip::Reason& r) {
                                  return r.what == trip::Fails::water_stops;
                                }),
            no_round);
  for (const auto& r : rows) {
    EXPECT_FALSE(r.then.empty()) << r.title;
    EXPECT_EQ(r.fallback == Fallback::none_needed, !trip::goes_wrong(r.verdict.band)) << r.title;
  }
}

// What fails as planned is no way to set out on, whichever leg it is that fails.
TEST_F(Round, OutsideAsPlannedDoesNotStart) {
  auto trip = round();
  trip.least_kept = 0.999;
  ask(trip);
  const auto& planned = row(Condition::as_planned);
  EXPECT_EQ(planned.verdict.band, trip::Band::outside);
  EXPECT_GE(planned.leg, 0);
  EXPECT_EQ(planned.fallback, Fallback::stay_home);
  EXPECT_EQ(planned.then, "do not start");
}

// Stopped after two conditions: no table is given, and none more is walked.
TEST_F(Round, StopsBetweenConditions) {
  struct StopAtThird : Progress {
    bool go_on(double share, const std::string&) override {
      EXPECT_LE(share, 1);
      return ++asked < 3;
    }
    int asked = 0;
  };
  ask(round());
  StopAtThird stop;
  const auto said = conditions_of(fells(), finder(), ways, &stop);
  ASSERT_FALSE(said);
  EXPECT_EQ(said.error().code, FaultCode::cancelled);
  EXPECT_EQ(stop.asked, 3);
}

// What was made for the plan is taken up for other days, and changes nothing: each row alone, from
// nothing, is the same.
TEST_F(Round, RowsAloneAreThoseOfTheTable) {
  ask(round());
  ASSERT_NE(ways.day, nullptr);
  ways.day.reset();
  for (int k = 0; k < condition_count; ++k) {
    const auto alone = conditions_of(fells(), finder(), ways, nullptr, static_cast<Condition>(k));
    ASSERT_TRUE(alone) << alone.error().what;
    ASSERT_EQ(alone->size(), 1U);
    const auto &a = alone->front(), &b = rows[static_cast<std::size_t>(k)];
    EXPECT_EQ(a.verdict, b.verdict) << k;
    EXPECT_EQ(a.certainty, b.certainty) << k;
    EXPECT_EQ(a.keep_off, b.keep_off) << k;
    EXPECT_EQ(a.minutes, b.minutes) << k;
    EXPECT_EQ(a.end_slow, b.end_slow) << k;
    EXPECT_EQ(a.then, b.then) << k;
  }
}

// Too late in the day there is no leg to blame: start sooner.
TEST_F(Round, TheDayItselfFails) {
  auto trip = round();
  trip.least_kept = 0.01;
  trip.most_keep_off = 1;
  ask(trip);
  const auto latest = ways.ways[ways.picked].plan.schedule.latest_start;
  ASSERT_TRUE(latest);
  trip.start = *latest - std::chrono::minutes{30};  // in time as planned, not an hour later
  ask(trip);
  EXPECT_NE(row(Condition::as_planned).verdict.band, trip::Band::outside);
  const auto& late = row(Condition::hour_late);
  EXPECT_EQ(late.verdict.band, trip::Band::outside);
  EXPECT_EQ(late.leg, -1);
  EXPECT_EQ(late.fallback, Fallback::start_sooner);
  EXPECT_NE(late.then.find("start by "), std::string::npos) << late.then;
}

// Planned for cloud, what may change is that it lifts.
TEST_F(Round, TheCloudLifts) {
  auto trip = round();
  trip.request.party.visibility = mapdata::Visibility::cloud;
  ask(trip);
  EXPECT_EQ(row(Condition::other_sight).title, "the cloud lifts");
  EXPECT_GT(row(Condition::other_sight).certainty, row(Condition::as_planned).certainty);
  EXPECT_STREQ(condition_name(Condition::other_sight, false), "clear");
}

}  // namespace
}  // namespace lodeway::tasks
