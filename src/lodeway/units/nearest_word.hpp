#pragma once
/// What somebody may have meant by a word that is not known.
#include <span>
#include <string>
#include <string_view>

namespace lodeway::units {

/// The word that is fewest strokes away (a letter more, less, other, or two swapped: Damerau 1964,
/// CACM 7:171), if that is at most two and at most a third of its letters; empty when there is
/// none. Of several equally near the first. Words of more than 60 bytes are near to none.
[[nodiscard]] std::string_view nearest_word(std::string_view given,
                                            std::span<const std::string_view> words);

/// "; did you mean WORD?", or empty.
[[nodiscard]] std::string did_you_mean(std::string_view given,
                                       std::span<const std::string_view> words);

}  // namespace lodeway::units
