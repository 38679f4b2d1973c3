#pragma once
/// The table of chances as one party has it in one air: made once for a request, read for every
/// leg. Certainties worked out, searches and walking parties all rest on it.
/// Method, and what each figure rests on: docs/method/seen.md
#include <array>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/sight/chances.hpp"

namespace lodeway::sight {

/// A gross error of the bearing is anything between, to either side, all alike. *practice*.
inline constexpr double gross_least_deg = 20, gross_most_deg = 60;

struct PartyChances {
  std::array<std::array<double, mapdata::kind_count>, chance_count> by_kind{};
  std::array<double, setting_count> settings{};
  mapdata::Visibility visibility = mapdata::Visibility::clear;

  [[nodiscard]] double of(ChanceOf chance, mapdata::Kind kind) const {
    return by_kind[static_cast<std::size_t>(chance)][static_cast<std::size_t>(kind)];
  }
  [[nodiscard]] double of(Setting setting) const {
    return settings[static_cast<std::size_t>(setting)];
  }
  /// A fix is known as its kind is; where lines meet, as a meeting, and no better than the second
  /// line; where one line turns into another half as often (*practice*: a path gets broader). Of
  /// bends and ends the share that `kinds` gives against their line's own stays.
  [[nodiscard]] double knows(const landmarks::Fix& fix, const mapdata::KindTable& kinds) const;
};

/// `failing`: as Chances::with_failing.
[[nodiscard]] PartyChances chances_of(const walking::Party& party, mapdata::Visibility visibility,
                                      double failing = 1);
[[nodiscard]] inline PartyChances chances_of(const walking::Party& party, double failing = 1) {
  return chances_of(party, party.visibility, failing);
}

}  // namespace lodeway::sight
