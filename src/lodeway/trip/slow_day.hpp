#pragma once
/// The day of those who are slow or lose their way: what nine in ten stay under.
/// Method: docs/method/schedule.md
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/reckoning/rehearsal/rehearsed_times.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::trip {

/// Minutes, rests and stays in them, that nine of ten parties stay under.
struct SlowDay {
  std::vector<double> arrive;  ///< one a leg: from the start to its end
  std::vector<double> on;      ///< from its end to the end of the day, what is spent there included
  double end = 0;              ///< to the end of the way; who gave up: back at the start
  double middle = 0;           ///< the same of half of them
  double slowness = 1;         ///< minutes of walking for one of the middle day's
  std::size_t walkers = 0;     ///< rehearsed parties it is counted of; 0: by the bands alone
};

/// Counted of a rehearsal: each party rests by the trip's rule, after its own minutes. Who gave up
/// goes back from where it stood by the same legs, as slow as it was before: `back_minutes` as of
/// make_schedule. Accuracy: with 2000 parties the end is good to some 1 % of the day. Needs a
/// walker and a leg at least.
[[nodiscard]] SlowDay slow_day_of(const walking::Request& request, const reckoning::JudgedWay& way,
                                  const std::vector<double>& back_minutes,
                                  const reckoning::RehearsedTimes& times);

/// Where nothing was rehearsed: by the bands of the party's times alone, without time lost to
/// mistakes; walking::nine_in_ten_minutes of the legs that each time spans.
[[nodiscard]] SlowDay slow_day_of(const walking::Request& request, const reckoning::JudgedWay& way);

}  // namespace lodeway::trip
