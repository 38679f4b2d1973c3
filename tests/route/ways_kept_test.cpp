/// A sample of what docs/results.md shows of the ways: random pairs of fixes on the Skarrow Fells.
#include <gtest/gtest.h>

#include <cmath>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/rehearsal.hpp"
#include "lodeway/route/keep_best.hpp"
#include "lodeway/route/way_parts.hpp"
#include "lodeway/tasks/derive.hpp"

namespace {

using namespace lodeway;

// Six pairs 1.5 to 3 km apart, a practised party in cloud. No named way is slower (recovery and the
// attention that each leg costs in it) and less sure than the least-time way, unless that one
// breaks the limits worse; and each is kept as often as predicted, within 3 points and two standard
// errors of 3000 simulated parties.
TEST(WaysKept, OnTheFells) {
  auto ground = fells::make_skarrow_fells();
  ground.kinds = io::built_in_rules().table();
  ASSERT_TRUE(tasks::derive_from_relief(ground));
  const route::WayFinder finder(ground);
  const auto& fixes = *finder.fixes();
  numeric::Random random(11, 7);
  numeric::Serial serial;
  const auto any = [&] {
    return fixes[static_cast<std::uint32_t>(random.uniform() *
                                            static_cast<double>(fixes.all().size()))]
        .at;
  };
  int pairs = 0;
  for (int tried = 0; pairs < 6 && tried < 200; ++tried) {
    const auto from = any(), to = any();
    const double apart = earth::grid_distance_m(from, to);
    if (apart < 1500 || apart > 3000) continue;
    walking::Request request;
    request.party.visibility = mapdata::Visibility::cloud;
    request.points = {{"start", from}, {"end", to}};
    const route::Wishes wishes{.walkers = 0};
    auto least = route::plan_way(ground, request, wishes.language);
    if (!least) continue;  // in water, or nothing leads there: not a trip
    SCOPED_TRACE(::testing::Message()
                 << from.east_m << ' ' << from.north_m << " to " << to.east_m << ' ' << to.north_m);
    const auto found = finder.find(request, wishes, serial);
    ASSERT_TRUE(found) << found.error().what;
    ++pairs;
    const reckoning::Judge judge(ground, request.party,
                                 reckoning::forbidden_of(walking::Cover(ground, request)),
                                 wishes.declination_sigma_deg);
    const auto quick = route::judged(judge, *std::move(least));
    const auto quick_cost = route::cost_of(quick);
    for (const auto& way : found->ways) {
      const auto cost = route::cost_of(way);
      const bool beaten = quick_cost.seconds < cost.seconds && quick_cost.loss < cost.loss;
      EXPECT_FALSE(beaten &&
                   route::breach_of(quick.way, wishes) <= route::breach_of(way.way, wishes))
          << way.way.name << ": " << cost.seconds << " s, " << way.certainty << "; least time "
          << quick_cost.seconds << " s, " << quick.certainty;
      const auto r = reckoning::rehearse(ground, judge, way.way, {3000, 1}, serial);
      ASSERT_TRUE(r) << r.error().what;
      EXPECT_NEAR(r->certainty, way.certainty, 0.03 + 2 * r->certainty_error) << way.way.name;
    }
  }
  EXPECT_EQ(pairs, 6);
}

}  // namespace
