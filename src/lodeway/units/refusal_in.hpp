#pragma once
/// A refusal in the reader's language, made once where it leaves the program.
#include <string>
#include <string_view>

#include "lodeway/units/language.hpp"

namespace lodeway::units {

/// German for a line such as "trip.toml:4: party.size: expected a whole number from 1 to 40": the
/// places in front stay, the rest is looked up (refusal_words.hpp), figures and names carried over.
/// Empty where a word of the line has no German: a line is never half in one language.
[[nodiscard]] std::string refusal_in_german(std::string_view english);

/// The line in `language`; English where it has no German.
[[nodiscard]] std::string refusal_in(Language language, std::string_view english);

/// The language of the computer's user by the POSIX locale's variables, the first that is set of
/// LC_ALL, LC_MESSAGES, LANG: German for "de", "de_CH.UTF-8" and the like, else English.
[[nodiscard]] Language language_of_locale(std::string_view lc_all, std::string_view lc_messages,
                                          std::string_view lang);

}  // namespace lodeway::units
