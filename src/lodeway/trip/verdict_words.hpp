#pragma once
/// The verdict in words: a headline and a sentence a reason, in the plan's language.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/trip/verdict.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::trip {

/// *Practice*: of a leg or an escape route on which fewer than this share of parties stray onto
/// ground to keep off it is not said how many do: half of one in 100, which is all that a figure
/// tells.
inline constexpr double told_harm = 0.005;

/// "Outside your limits", "Not judged", "Close to your limits", "Within your limits".
[[nodiscard]] std::string verdict_headline(Band band, units::Language language);

/// One sentence: what fails, on which leg (numbered from 1), by how much. Chances as "34 in 100",
/// durations as "1 h 05 min". Chances of harm are rounded up, chances of keeping a leg down.
[[nodiscard]] std::string reason_words(const Reason& reason, units::Language language);

/// The same without "Leg 3: ", for the leg's own row; of a reason that has a leg.
[[nodiscard]] std::string leg_reason_words(const Reason& reason, units::Language language);

/// The reasons as they are printed: each leg's own, the same failing of several legs in one
/// sentence ("Legs 2, 5 and 6: fewer than ..."). Worst first.
[[nodiscard]] std::vector<std::string> verdict_sentences(const Verdict& verdict,
                                                         units::Language language);

/// What the share that keeps every leg is the lower of: `walked`, of parties that walked it and
/// were never put back (absent: nobody did), and `averaged`, predicted, the mean over what is not
/// known of the party; beside it what its figures taken as known would say. Empty where all are
/// shown alike.
[[nodiscard]] std::string kept_words(std::optional<double> walked, double averaged, double as_known,
                                     units::Language language);

/// What leaders must be told beside the word "within": that it is about limits, not about safety.
[[nodiscard]] std::string within_caution(units::Language language);

/// A chance of harm as whole parties in 100, rounded up to the next whole one unless it is 0:
/// 0.0004 gives "1", 0.34 "34", 0.3401 "35".
[[nodiscard]] std::string harmed_of_hundred(double chance);

}  // namespace lodeway::trip
