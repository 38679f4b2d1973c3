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
#include "support/support.hpp"

namespace lodeway::learn {
namespace {
constexpr double table_known = 0.9, seen_m = 60;
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

/// Root mean square errors of the certainty over the drawn parties.
struct Errors {
  double table = 0, average = 0, trained = 0, mean_truth = 0, mean_average = 0;
};

/// After so many open bearings and ends of training, counted half as training is.
Errors after(int bearings, int ends) {
  numeric::Random random(31);
  const int parties = support::of_study(8000, 800);
  const auto table = reckoning::errors_of({});
  const double as_table = day_certainty(table, table_known);
  Errors out;
  for (int p = 0; p < parties; ++p) {
    const double factor = std::exp(0.45 * random.normal());
    const double known = chance(logit(table_known) + random.normal());
    const auto mine = scaled(table, factor);
    const double truth = day_certainty(mine, known);
    numeric::Random of_day(31, static_cast<std::uint64_t>(p) + 1);
    PartyRecord record;
    const double compass = table.compass_sigma * of_day.normal();
    if (bearings > 0) {
      Measured b;
      b.date = today;
      b.exercise = Exercise::bearing;
      b.leg_m = 400;
      for (int i = 0; i < bearings; ++i) {
        const double a =
            compass + mine.bearing_sigma * of_day.normal() +
            mine.sighting_sigma / std::sqrt(400 / mine.sighting_every_m) * of_day.normal();
        b.across_m.push_back(std::clamp(400 * std::tan(a), -200.0, 200.0));
      }
      EXPECT_TRUE(add(record, b));
    }
    if (ends > 0) {
      Measured f;
      f.date = today;
      f.exercise = Exercise::features;
      f.trials = ends;
      for (int i = 0; i < ends; ++i) f.missed += of_day.uniform() > known;
      EXPECT_TRUE(add(record, f));
    }
    Basis basis;
    basis.today = today;
    const auto figures = figures_of(record, basis);
    const auto party = learnt_party({}, figures, basis);
    const auto* know = figures.find(Quantity::know);
    const double trained =
        averaged(reckoning::errors_of(party), know != nullptr ? know->estimate.value : table_known,
                 bearings > 0 ? party.doubt.bearing_log_sd : 0.45,
                 ends > 0 ? party.doubt.chance_logit_sd : 1);
    const double average = averaged(table, table_known, 0.45, 1);
    out.table += (as_table - truth) * (as_table - truth) / parties;
    out.average += (average - truth) * (average - truth) / parties;
    out.trained += (trained - truth) * (trained - truth) / parties;
    out.mean_truth += truth / parties;
    out.mean_average += average / parties;
  }
  out.table = std::sqrt(out.table);
  out.average = std::sqrt(out.average);
  out.trained = std::sqrt(out.trained);
  return out;
}

TEST(HalfDay, BringsTheCertaintyNearerToTheTruth) {
  const auto percent = [](double x) { return static_cast<int>(std::lround(100 * x)); };
  const double as_table = day_certainty(reckoning::errors_of({}), table_known);
  const auto bearings = after(12, 0), ends = after(0, 30), both = after(12, 30),
             twice = after(24, 60);
  RecordProperty("table_certainty_percent", percent(as_table));
  RecordProperty("mean_truth_percent", percent(both.mean_truth));
  RecordProperty("rms_table_percent", percent(both.table));
  RecordProperty("rms_average_percent", percent(both.average));
  RecordProperty("rms_twelve_bearings_percent", percent(bearings.trained));
  RecordProperty("rms_thirty_ends_percent", percent(ends.trained));
  RecordProperty("rms_half_day_percent", percent(both.trained));
  RecordProperty("rms_twice_percent", percent(twice.trained));
  EXPECT_GT(as_table, both.mean_truth);                   // a table read as certain flatters
  EXPECT_NEAR(both.mean_average, both.mean_truth, 0.05);  // averaging takes most of that back
  EXPECT_LT(std::abs(both.mean_average - both.mean_truth), std::abs(as_table - both.mean_truth));
  EXPECT_LT(both.trained, 0.85 * both.average);
  EXPECT_LT(twice.trained, both.trained);
  for (const auto& one : {bearings, ends}) {  // each alone helps, both help more
    EXPECT_LT(one.trained, one.average);
    EXPECT_LT(both.trained, one.trained);
  }
}

}  // namespace
}  // namespace lodeway::learn
