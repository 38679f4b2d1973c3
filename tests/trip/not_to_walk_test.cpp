// Ways that nobody would walk. By hand.
#include "lodeway/trip/not_to_walk.hpp"

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

Plan plan_of(double keep_off, double kept) {
  Plan out;
  out.keep_off = keep_off;
  out.way.certainty = kept;
  WayFacts facts;
  facts.keep_off = keep_off;
  facts.legs = {{.kept = kept, .keep_off = keep_off}};
  out.verdict = verdict_of(facts, {});
  return out;
}

TEST(NotToWalk, MoreStrayThanKeepIt) {
  EXPECT_TRUE(not_to_walk(plan_of(1.0, 0.0)));
  EXPECT_TRUE(not_to_walk(plan_of(0.5, 0.4)));
  EXPECT_FALSE(not_to_walk(plan_of(0.4, 0.5)));   // outside the limits, and said to be
  EXPECT_FALSE(not_to_walk(plan_of(0.05, 0.0)));  // within the limit: they lose their way, no more
}

TEST(NotToWalk, SaidBeforeAllElse) {
  auto plan = plan_of(1.0, 0.0);
  EXPECT_EQ(headline_of(plan), "Not to be walked");
  const auto said = sentences_of(plan);
  ASSERT_GE(said.size(), 3U);
  EXPECT_EQ(said[0],
            "More parties stray onto ground to keep off than keep every leg. The legs stand here "
            "only to show where.");
  EXPECT_EQ(said[1].rfind("Next: ", 0), 0U);
  EXPECT_EQ(said[2], "100 in 100 stray onto ground to keep off; your limit is 5 in 100.");
  plan.trip.language = units::Language::german;
  EXPECT_EQ(not_to_walk_mark(plan), "Nicht zu gehen");
  plan = plan_of(0.4, 0.5);
  EXPECT_EQ(headline_of(plan), "Outside your limits");
  EXPECT_EQ(not_to_walk_mark(plan), "");
}

}  // namespace
}  // namespace lodeway::trip
