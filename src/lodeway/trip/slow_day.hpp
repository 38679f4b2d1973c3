#pragma once
/// The day of those who are slow or lose their way: what nine in ten stay under.
/// Method: docs/method/schedule.md
#include <optional>
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/trip/verdict.hpp"
#include "lodeway/walking/walked_days.hpp"

namespace lodeway::trip {

/// Where more than this share of parties is not home by itself within a day no hour can be named
/// that nine in ten keep: as the verdict has it.
inline constexpr double most_never_home = Limits{}.most_never_home;

/// Minutes, rests and stays in them, that nine of ten parties stay under.
struct SlowDay {
  std::vector<double> arrive;  ///< one a leg: from the start to its end, of those who get there
  /// From its end to the end of the day, what is spent there included; absent: more than one in ten
  /// of those who get there are never home.
  std::vector<std::optional<double>> on;
  std::optional<double> end;     ///< of all; absent: more than one in ten are never home
  std::optional<double> middle;  ///< the same of half of them
  double never_home = 0;         ///< share of all, of 1
  double slowness = 1;           ///< minutes of walking for one of the middle day's
  std::size_t walkers = 0;       ///< parties it is counted of; 0: by the bands alone
};

/// Counted of parties that really walk and are never put back (walkers); each number is the least
/// that nine in ten of all stay under, those who are never home among them. With n parties the rank
/// is good to 0.3 / sqrt(n) of all: 500 parties, 1.3 in 100. Needs a party and a leg at least.
[[nodiscard]] SlowDay slow_day_of(const walking::Request& request, const reckoning::JudgedWay& way,
                                  const walking::WalkedDays& days);

/// Where nobody walked: by the bands of the party's times alone, without time lost to mistakes;
/// walking::nine_in_ten_minutes of the legs that each time spans.
[[nodiscard]] SlowDay slow_day_of(const walking::Request& request, const reckoning::JudgedWay& way);

}  // namespace lodeway::trip
