#pragma once
/// What walked days say of a party's times. Method with a worked example:
/// docs/method/learning-from-tracks.md
#include <chrono>
#include <span>

#include "lodeway/learn/estimate/estimates.hpp"
#include "lodeway/learn/record/record.hpp"
#include "lodeway/walking/time_bands.hpp"

namespace lodeway::learn {

/// All *practice* but the defaults of walking::default_bands.
inline constexpr double day_sd = 0.1;        ///< of the logarithm: one day against another
inline constexpr double pieces_for_one = 3;  ///< neighbouring pieces correlate 0.45 to 0.70
inline constexpr double leg_worth = 6;       ///< of the table's leg band, in independent pieces
inline constexpr double least_band = 0.15;   ///< before so many days:
inline constexpr int days_for_less = 3;
inline constexpr double least_learnt_min = 60;  ///< the first hour alone misleads
inline constexpr double slope_response = 3.5, slope_response_sd = 0.7;  ///< Tobler's exponent

/// ln(real / model) and what is left of its doubt.
struct Pace {
  Shift party;           ///< logarithm of the factor on the model's minutes, prior centre included
  double shared_sd = 0;  ///< of the coming day: party not known and day together
  Estimate leg;          ///< one sigma within a day
  Rate stops;            ///< for each hour of moving
  double stop_min = 10;  ///< mean length of one
  Estimate exponent;     ///< Tobler's: how slopes slow this party
  double moving_min = 0, km = 0;
  int days = 0;
  bool learnt = false;  ///< false: less than an hour was walked, and the defaults stand
  [[nodiscard]] walking::TimeBands bands() const;
};

/// `today` weighs older days less. Days of which nothing can be said are left out.
[[nodiscard]] Pace pace_of(std::span<const WalkedDay> walked, walking::TimeModel model,
                           std::chrono::year_month_day today);

/// The bands that a set of walks by different parties shows, without any prior: mean of the walks'
/// means, their sd, the pooled sd within. `degrees` is the number of walks less one: what is
/// predicted with them follows Student's t. Needs two walks with two pieces each (asserted).
struct FittedBands {
  walking::TimeBands bands;
  double degrees = 1;
  /// Factor that a piece stays below with this chance.
  [[nodiscard]] double below(double chance) const;
};
[[nodiscard]] FittedBands fit_bands(std::span<const WalkedDay> walked, walking::TimeModel model);

}  // namespace lodeway::learn
