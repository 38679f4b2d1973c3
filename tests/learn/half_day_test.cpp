// What a half day buys: parties drawn at random, a day of six legs, its certainty as the table has
// it, averaged over what is not known, and after a half day of training. The draw is an invention
// and stands in docs/results.md beside the figures.
#include <gtest/gtest.h>

#include <cmath>

#include "lodeway/learn/figures/party_figures.hpp"
#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::learn {
namespace {
constexpr double degree = 0.017453292519943295, table_known = 0.9, seen_m = 60;
const std::chrono::year_month_day today{std::chrono::year{2026}, std::chrono::month{11},
                                        std::chrono::day{29}};

double logit(double p) { return std::log(p / (1 - p)); }
double chance(double x) { return 1 / (1 + std::exp(-x)); }

/// Six legs to marks seen from 60 m, each known with this chance.
double day_certainty(const reckoning::Errors& e, double known) {
  double out = 1;
  for (const double length : {400.0, 550.0, 700.0, 800.0, 900.0, 1000.0}) {
    const auto s = reckoning::single_leg_spread(e, length);
    // along, a party goes on past the count: only across decides
    out *= known * std::erf(seen_m / std::sqrt(2 * s.cross_m2));
  }
  return out;
}

reckoning::Errors scaled(reckoning::Errors e, double angles) {
  e.bearing_sigma *= angles;
  e.sighting_sigma *= angles;
  return e;
}

double averaged(const reckoning::Errors& e, double known, double log_sd, double logit_sd) {
  const double far = std::sqrt(2.0);  // two unknowns, four parties
  double sum = 0;
  for (const double side : {-far, far}) {
    sum += day_certainty(scaled(e, std::exp(side * log_sd)), known) / 4;
    sum += day_certainty(e, chance(logit(known) + side * logit_sd)) / 4;
  }
  return sum;
}

TEST(HalfDay, BringsTheCertaintyNearerToTheTruth) {
  numeric::Random random(31);
  constexpr int parties = 400;
  const auto table = reckoning::errors_of({});
  double by_table = 0, by_average = 0, by_half_day = 0, mean_truth = 0, mean_average = 0;
  const double as_table = day_certainty(table, table_known);
  for (int p = 0; p < parties; ++p) {
    const double factor = std::exp(0.45 * random.normal());
    const double known = chance(logit(table_known) + random.normal());
    const auto mine = scaled(table, factor);
    const double truth = day_certainty(mine, known);
    PartyRecord record;
    Measured b;
    b.date = today;
    b.exercise = Exercise::bearing;
    b.leg_m = 400;
    const double compass = table.compass_sigma * random.normal();
    for (int i = 0; i < 12; ++i) {
      const double a =
          compass + mine.bearing_sigma * random.normal() +
          mine.sighting_sigma / std::sqrt(400 / mine.sighting_every_m) * random.normal();
      b.across_m.push_back(400 * std::tan(a));
    }
    for (auto& x : b.across_m) x = std::clamp(x, -200.0, 200.0);
    ASSERT_TRUE(add(record, b));
    Measured f;
    f.date = today;
    f.exercise = Exercise::features;
    f.trials = 30;  // ten a pair
    for (int i = 0; i < 30; ++i) f.missed += random.uniform() > known;
    ASSERT_TRUE(add(record, f));
    Basis basis;
    basis.today = today;
    const auto figures = figures_of(record, basis);
    const auto party = learnt_party({}, figures, basis);
    const double after =
        averaged(reckoning::errors_of(party), figures.find(Quantity::know)->estimate.value,
                 party.doubt.bearing_log_sd, party.doubt.chance_logit_sd);
    const double average = averaged(table, table_known, 0.45, 1);
    by_table += (as_table - truth) * (as_table - truth) / parties;
    by_average += (average - truth) * (average - truth) / parties;
    by_half_day += (after - truth) * (after - truth) / parties;
    mean_truth += truth / parties;
    mean_average += average / parties;
  }
  RecordProperty("table_certainty_percent", static_cast<int>(std::lround(100 * as_table)));
  RecordProperty("mean_truth_percent", static_cast<int>(std::lround(100 * mean_truth)));
  RecordProperty("rms_table_percent", static_cast<int>(std::lround(100 * std::sqrt(by_table))));
  RecordProperty("rms_average_percent", static_cast<int>(std::lround(100 * std::sqrt(by_average))));
  RecordProperty("rms_half_day_percent",
                 static_cast<int>(std::lround(100 * std::sqrt(by_half_day))));
  EXPECT_GT(as_table, mean_truth);              // a table read as certain flatters
  EXPECT_NEAR(mean_average, mean_truth, 0.05);  // averaging takes most of that back
  EXPECT_LT(by_average, by_table);
  EXPECT_LT(std::sqrt(by_half_day), 0.85 * std::sqrt(by_average));
}

}  // namespace
}  // namespace lodeway::learn
