#pragma once
/// What a leader is told of a leg beside its figures: why it turns, that it is long, what its end
/// could be taken for, that it ends at an attack point. Words: trip/turn_words.hpp.
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// *Practice*: from an attack point the hard end is no farther.
inline constexpr double attack_within_m = 250;

struct LegNote {
  enum class About : unsigned char {
    attack_point,  ///< `what`: the hard end that it is the attack point for
    turn,          ///< `turn`: why it turns at its end, where nothing marks the place
    long_leg,      ///< `minutes`; longer than walking/long_leg.hpp
    taken_for,     ///< `what` stands `away_m` off in `towards`; `more` others stand about
  };
  About about = About::turn;
  std::string what = {};
  walking::TurnReason turn = {};
  double minutes = 0, away_m = 0;
  units::GridBearing towards = {};
  int more = 0;
};

/// Is the end of the first leg an attack point: along a line to a place that is known, from which the
/// second goes on a bearing, straight at something that is to be found, `attack_within_m` at most?
[[nodiscard]] bool ends_at_attack_point(const reckoning::JudgedLeg& leg,
                                        const reckoning::JudgedLeg& next);

/// A list a leg. What the end could be taken for is told of an end at a point of the map (25 m):
/// the nearest other that looks alike (landmarks/likeness.hpp) within 2.45 sigma of the leg's error
/// at its end or 50 m, whichever is more, and how many more there are; of a house among others
/// within 150 m at least. Distances are grid metres.
/// Where the leg says already what it is easily confused with (judged.confusable), that is enough.
[[nodiscard]] std::vector<std::vector<LegNote>> notes_of(const reckoning::JudgedWay& way,
                                                         const walking::Ground& ground,
                                                         units::Language language);

}  // namespace lodeway::trip
