#include "lodeway/learn/figures/pace.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "lodeway/learn/estimate/distributions.hpp"
#include "lodeway/learn/record/evidence.hpp"

namespace lodeway::learn {

namespace {

double log_ratio(const WalkedPiece& piece, walking::TimeModel model) {
  return std::log(piece.minutes / piece.model_minutes[static_cast<std::size_t>(model)]);
}

struct Within {
  double n = 0, mean = 0, squares = 0;  ///< about the mean
};

Within within(const WalkedDay& day, walking::TimeModel model) {
  Within out;
  for (const auto& piece : day.pieces) {
    const double x = log_ratio(piece, model), before = x - out.mean;
    out.n += 1;
    out.mean += before / out.n;
    out.squares += before * (x - out.mean);
  }
  return out;
}

/// Tobler's exponent by least squares of ln(real / Tobler) on the distance from the easiest slope,
/// each day about its own mean, with the published 3.5 as the prior.
Estimate exponent_of(std::span<const WalkedDay> walked, std::chrono::year_month_day today,
                     double leg_sd) {
  double xx = 0, xy = 0;
  for (const auto& day : walked) {
    const double n = static_cast<double>(day.pieces.size());
    if (n < 2) continue;
    double mean_x = 0, mean_y = 0;
    for (const auto& p : day.pieces) {
      mean_x += p.off_ease / n;
      mean_y += log_ratio(p, walking::TimeModel::tobler) / n;
    }
    const double w = weight_of(day.date, false, today) / pieces_for_one;
    for (const auto& p : day.pieces) {
      xx += w * (p.off_ease - mean_x) * (p.off_ease - mean_x);
      xy += w * (p.off_ease - mean_x) * (log_ratio(p, walking::TimeModel::tobler) - mean_y);
    }
  }
  const auto more = shared_shift(0, slope_response_sd, xx, xx > 0 ? xy / xx : 0, leg_sd);
  auto out = more.estimate();
  for (double* v : {&out.value, &out.low, &out.high}) *v += slope_response;
  return out;
}

}  // namespace

walking::TimeBands Pace::bands() const { return {std::exp(party.mean), shared_sd, leg.value}; }

Pace pace_of(std::span<const WalkedDay> walked, walking::TimeModel model,
             std::chrono::year_month_day today) {
  const auto table = walking::default_bands(model);
  const double party_sd = std::sqrt(table.shared * table.shared - day_sd * day_sd);
  Pace out;
  double leg_trials = 0, leg_squares = 0, standing = 0, stops = 0;
  for (const auto& day : walked) {
    if (day.pieces.empty()) continue;
    out.moving_min += day.moving_min;
    out.km += day.walked_km();
    out.days += 1;
    const auto w = within(day, model);
    const double free = w.n / pieces_for_one - 1, weight = weight_of(day.date, false, today);
    if (w.n >= 2 && free > 0) {
      leg_trials += weight * free;
      leg_squares += weight * free * w.squares / (w.n - 1);
    }
    standing += day.standing_min;
    stops += day.stops;
  }
  out.learnt = out.moving_min >= least_learnt_min;
  out.leg = spread(table.leg, leg_worth, out.learnt ? leg_trials : 0, out.learnt ? leg_squares : 0);
  // One stop of ten minutes in each hour of moving, worth two hours.
  out.stops = rate(2, 2, out.learnt ? stops : 0, out.learnt ? out.moving_min / 60 : 0);
  if (out.learnt && stops > 0) out.stop_min = (2 * 10 + standing) / (2 + stops);
  double precision = 0, sum = 0;
  for (const auto& day : walked) {
    if (day.pieces.empty() || !out.learnt) continue;
    const auto w = within(day, model);
    const double independent = std::max(1.0, w.n / pieces_for_one);
    const double p = weight_of(day.date, false, today) /
                     (day_sd * day_sd + out.leg.value * out.leg.value / independent);
    precision += p;
    sum += p * w.mean;
  }
  out.party = shared_shift(std::log(table.centre), party_sd, precision,
                           precision > 0 ? sum / precision : 0, 1);
  out.shared_sd = std::hypot(out.party.sd, day_sd);
  if (out.days < days_for_less) {
    out.shared_sd = std::max(out.shared_sd, least_band);
    out.leg.value = std::max(out.leg.value, least_band);
  }
  out.exponent =
      exponent_of(out.learnt ? walked : std::span<const WalkedDay>(), today, out.leg.value);
  return out;
}

double FittedBands::below(double chance) const {
  assert(chance > 0 && chance < 1);
  return bands.centre *
         std::exp(student_quantile(degrees, chance) * std::hypot(bands.shared, bands.leg));
}

FittedBands fit_bands(std::span<const WalkedDay> walked, walking::TimeModel model) {
  FittedBands out;
  double walks = 0, mean = 0, between = 0, squares = 0, free = 0;
  for (const auto& day : walked) {
    const auto w = within(day, model);
    if (w.n < 1) continue;
    const double before = w.mean - mean;
    walks += 1;
    mean += before / walks;
    between += before * (w.mean - mean);
    squares += w.squares;
    free += w.n - 1;
  }
  assert(walks >= 2 && free >= 1);
  out.bands.centre = std::exp(mean);
  out.bands.shared = std::sqrt(between / (walks - 1));
  out.bands.leg = std::sqrt(squares / free);
  out.degrees = walks - 1;
  return out;
}

}  // namespace lodeway::learn
