#include "lodeway/learn/estimate/estimates.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "lodeway/learn/estimate/distributions.hpp"

namespace lodeway::learn {

namespace {
constexpr double low_p = 0.05, high_p = 0.95, z_95 = 1.6448536269514722;
}

Estimate chance(double table, double worth, double trials, double missed) {
  assert(table > 0 && table < 1 && worth > 0 && missed >= 0 && missed <= trials);
  const double a = table * worth + trials - missed, b = (1 - table) * worth + missed;
  return {a / (a + b), beta_quantile(a, b, low_p), beta_quantile(a, b, high_p),
          worth / (worth + trials)};
}

Estimate spread(double table, double worth, double trials, double sum_squares) {
  assert(table > 0 && worth > 0 && trials >= 0 && sum_squares >= 0);
  const double degrees = worth + trials, total = worth * table * table + sum_squares;
  return {std::sqrt(total / degrees), std::sqrt(total / chi_squared_quantile(degrees, high_p)),
          std::sqrt(total / chi_squared_quantile(degrees, low_p)), worth / degrees};
}

Estimate Shift::estimate() const { return {mean, mean - z_95 * sd, mean + z_95 * sd, table_share}; }

Shift shared_shift(double prior_mean, double prior_sd, double trials, double mean,
                   double trial_sd) {
  assert(prior_sd > 0 && trial_sd > 0 && trials >= 0);
  const double before = 1 / (prior_sd * prior_sd), seen = trials / (trial_sd * trial_sd),
               all = before + seen;
  return {(prior_mean * before + (trials > 0 ? mean * seen : 0)) / all, 1 / std::sqrt(all),
          before / all};
}

Estimate Rate::estimate() const {
  return {shape / exposure, gamma_quantile(shape, exposure, low_p),
          gamma_quantile(shape, exposure, high_p), table_share};
}

double Rate::none_within(double more) const {
  return std::pow(exposure / (exposure + more), shape);
}

Rate rate(double prior_shape, double prior_exposure, double events, double exposure) {
  assert(prior_shape > 0 && prior_exposure > 0 && events >= 0 && exposure >= 0);
  return {prior_shape + events, prior_exposure + exposure,
          prior_exposure / (prior_exposure + exposure)};
}

Rate loss_rate(double kept, double over_km, double worth_km, double losses, double walked_km) {
  assert(kept > 0 && kept < 1 && over_km > 0);
  return rate(-std::log(kept) / over_km * worth_km, worth_km, losses, walked_km);
}

MeanDistance mean_distance(double prior_shape, double prior_m, double noticed, double metres) {
  assert(prior_shape > 1);
  return {rate(prior_shape, prior_m, noticed, metres)};
}

Estimate MeanDistance::estimate() const {
  return {rate.exposure / (rate.shape - 1), rate.exposure / gamma_quantile(rate.shape, 1, high_p),
          rate.exposure / gamma_quantile(rate.shape, 1, low_p), rate.table_share};
}

Rate sweep_width(double finds, double exposure) { return rate(2, 0.1, finds, exposure); }

}  // namespace lodeway::learn
