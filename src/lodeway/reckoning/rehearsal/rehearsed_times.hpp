#pragma once
/// What each walker of a rehearsal took, leg by leg: what a day's nine-in-ten times are made of.
#include <cstddef>
#include <vector>

namespace lodeway::reckoning {

struct RehearsedTimes {
  std::size_t walkers = 0;
  /// Minutes of walking at [leg * walkers + walker], searches and second tries in them, rests and
  /// stays not; NaN on legs after the one on which a walker gave up.
  std::vector<float> minutes;
  /// One a walker: the leg, by index, from whose start it went back; -1: it came through.
  std::vector<int> gave_up;
};

}  // namespace lodeway::reckoning
