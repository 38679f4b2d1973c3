// What is told of a plan whose day is over, by the clock that SOURCE_DATE_EPOCH sets.
#include "lodeway/tasks/today.hpp"

#include <cstdlib>

#include <gtest/gtest.h>

namespace {
using namespace lodeway;
using std::chrono::hours, std::chrono::sys_days;

/// Sets the variable for one test.
class Clock {
 public:
  explicit Clock(std::chrono::sys_seconds at) {
    setenv("SOURCE_DATE_EPOCH", std::to_string(at.time_since_epoch().count()).c_str(), 1);
  }
  ~Clock() { unsetenv("SOURCE_DATE_EPOCH"); }
  Clock(const Clock&) = delete;
  Clock& operator=(const Clock&) = delete;
};

// Home would call at 18:00 by Dublin's clock, 17:00 UTC.
TEST(Today, ThePastIsToldFirstAndOnlyThen) {
  trip::Plan plan;
  plan.trip.date = std::chrono::year{2026} / 7 / 1;
  plan.trip.zone = "Europe/Dublin";
  plan.trip.start = plan.schedule.start = trip::Clock{9 * 60};
  plan.schedule.act_by = trip::Clock{18 * 60};
  plan.warnings.push_back({trip::Severity::danger, "other"});
  const std::chrono::sys_seconds over = sys_days{plan.trip.date} + hours{17};
  {
    const Clock clock(over);
    EXPECT_EQ(tasks::now(), over);
    EXPECT_EQ(tasks::as_of_today(plan).warnings.size(), 1U);
  }
  const Clock clock(over + std::chrono::seconds{1});
  const auto told = tasks::as_of_today(plan);
  ASSERT_EQ(told.warnings.size(), 2U);
  EXPECT_EQ(told.warnings[0].reach, trip::Reach::card);
  EXPECT_NE(told.warnings[0].text.find("is past"), std::string::npos);
}

}  // namespace
