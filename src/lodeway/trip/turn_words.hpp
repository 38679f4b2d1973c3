#pragma once
/// Turns, forks and bends in words.
#include <string>
#include <string_view>

#include "lodeway/trip/planned_leg.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::trip {

/// "keep right", "left": for a sentence.
[[nodiscard]] std::string turn_words(Turn turn, Language language);
/// The same in English, for files.
[[nodiscard]] std::string turn_name(Turn turn);

/// "left, 342°; not 235°, 271°"
[[nodiscard]] std::string fork_words(const ForkAhead& fork, const Trip& trip);
/// The forks on the way at which going on is not a matter of course, or that no tick-off tells of
/// within 40 m: "at 1676 m keep right, 342°; not 271°", one each, at most `most`.
[[nodiscard]] std::vector<std::string> forks_told(const PlannedLeg& leg, const Trip& trip,
                                                  std::size_t most = 99);
/// "080° at 150 m, 114° at 350 m"; empty without bends.
[[nodiscard]] std::string bend_words(const PlannedLeg& leg, const Trip& trip);
/// "after 358 m: Fallow Beck; high water: round by Hosk Bridge, 450 m at 329°, at least 25 min more"
[[nodiscard]] std::string ford_words(const FordAhead& ford, const Trip& trip);
/// All of a leg in one: the worst in full (no way round, a river, the longest way round), of the others
/// where and what: "...; also 87 m Near Twin Beck, 640 m stream". Empty where there is none.
[[nodiscard]] std::string fords_words(const PlannedLeg& leg, const Trip& trip);
/// "Turn here; straight on lies: a cliff (Brennow Edge)." `norths`: the way's.
[[nodiscard]] std::string note_words(const LegNote& note, const Trip& trip,
                                     const units::Norths& norths);
/// A note `taken_for` where a heading says already that it looks like the end: "sheepfold, 60 m at
/// 000° from the end; 2 more about."
[[nodiscard]] std::string like_words(const LegNote& note, const Trip& trip,
                                     const units::Norths& norths);
/// What kind of note it is, for files: "turn", "long_leg", "attack_point", "taken_for".
[[nodiscard]] std::string_view note_name(LegNote::About about);
/// What keeps to one side, which way the water runs: "upstream, Fallow Beck on your left".
[[nodiscard]] std::string beside_words(const PlannedLeg& leg, const std::string& remark,
                                       Language language);

}  // namespace lodeway::trip
