#pragma once
/// How much a trial counts. All *practice*: watched people try harder than tired ones on a hill,
/// people forget and learn, and no figure should be held certain because one exercise was long.
#include <chrono>
#include <span>

#include "lodeway/learn/record/record.hpp"

namespace lodeway::learn {

inline constexpr double training_counts = 0.5;
inline constexpr double halves_after_days = 365.25;
inline constexpr double most_trials = 60;  ///< of one figure, after weighing

/// Half for training, halved again for each year between; a later day than `today` counts as today.
[[nodiscard]] double weight_of(std::chrono::year_month_day date, bool training,
                               std::chrono::year_month_day today);

/// The factor that brings so many weighted trials down to most_trials; 1 below it.
[[nodiscard]] constexpr double capped(double weighted_trials) {
  return weighted_trials > most_trials ? most_trials / weighted_trials : 1;
}

}  // namespace lodeway::learn
