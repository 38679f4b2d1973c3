#pragma once
/// What a few trials say about a party: the table's figure as the prior, worth so many trials, and
/// the trials themselves. Every answer carries its 90 % interval and how much of it is table.
/// Method with worked examples: docs/method/learning.md. Trials may be weighted, so counts are
/// doubles: training counts half, old evidence less (record/evidence.hpp).

namespace lodeway::learn {

/// A figure with the interval that holds it nine times of ten.
struct Estimate {
  double value = 0, low = 0, high = 0;
  double table_share = 1;  ///< of all evidence, the part that is the table: 1 = nothing measured
};

/// A chance in [0, 1]: Beta(table * worth + kept, (1 - table) * worth + missed). `value` is the
/// mean. table within (0, 1), worth above 0, 0 <= missed <= trials (asserted).
[[nodiscard]] Estimate chance(double table, double worth, double trials, double missed);

/// A one-sigma spread about 0 (not about the sample's own mean: a shared part is estimated apart):
/// scaled inverse chi-squared with `worth` degrees at the table. `sum_squares` is that of `trials`
/// errors, in the table's unit. `value` is sqrt((worth table^2 + sum) / (worth + trials)).
[[nodiscard]] Estimate spread(double table, double worth, double trials, double sum_squares);
/// Degrees of freedom of an error predicted with such a spread (Student's t).
[[nodiscard]] inline double predictive_degrees(double worth, double trials) {
  return worth + trials;
}

/// A mean that is shared by all trials, Normal(prior_mean, prior_sd) before: `mean` of `trials`
/// values that each scatter by `trial_sd`. low and high are 1.645 sigmas away.
struct Shift {
  double mean = 0, sd = 0;
  double table_share = 1;
  [[nodiscard]] Estimate estimate() const;
};
[[nodiscard]] Shift shared_shift(double prior_mean, double prior_sd, double trials, double mean,
                                 double trial_sd);

/// How often something happens for each unit of exposure: Gamma(shape, rate) before, `events` in
/// `exposure` seen. `value` is the mean (shape + events) / (rate + exposure).
struct Rate {
  double shape = 1, exposure = 1;
  double table_share = 1;
  [[nodiscard]] Estimate estimate() const;
  /// Chance that nothing happens within `more` units, averaged over what is not known of the rate:
  /// (exposure / (exposure + more))^shape.
  [[nodiscard]] double none_within(double more) const;
};
[[nodiscard]] Rate rate(double prior_shape, double prior_exposure, double events, double exposure);

/// Losses for each kilometre of a line of which `kept` of all parties keep `over_km`, worth
/// `worth_km` walked.
[[nodiscard]] Rate loss_rate(double kept, double over_km, double worth_km, double losses,
                             double walked_km);

/// Mean distance until something is noticed, when it may be anywhere (exponential): `noticed` of
/// them after `metres` in all. `value` is exposure / (shape - 1).
struct MeanDistance {
  Rate rate;
  [[nodiscard]] Estimate estimate() const;
};
[[nodiscard]] MeanDistance mean_distance(double prior_shape, double prior_m, double noticed,
                                         double metres);

/// Width of the strip that a searching party sweeps, metres, from finds and the sum of metres
/// searched / area (1/m) over all searches, found or not: exposure. Koopman's random search:
/// found = 1 - exp(-W metres / area). Prior Gamma(2, 0.1): 20 m, worth two finds.
[[nodiscard]] Rate sweep_width(double finds, double exposure);

}  // namespace lodeway::learn
