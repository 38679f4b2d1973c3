#pragma once
/// What became of the day of each of many parties that walked a way: plain values.
#include <cstddef>
#include <vector>

namespace lodeway::walking {

struct WalkedDays {
  std::size_t parties = 0;  ///< 0: nobody walked
  std::size_t kept = 0;     ///< came to the end, and ended every leg there at the first try
  /// Minutes from the start to where the party believed leg `l` ended, rests on the way in them, at
  /// [l * parties + party]; NaN for those who never did.
  std::vector<float> ended;
  std::vector<float> home;    ///< to the end, back at the start or on safe ground; infinite: never
  std::vector<float> walked;  ///< on the legs themselves, searches in them, rests not
};

}  // namespace lodeway::walking
