#pragma once
/// The language of the one line that a failed command leaves.
#include "lodeway/units/language.hpp"

namespace lodeway::cli {

/// The language of the computer's user, by the environment (LC_ALL, LC_MESSAGES, LANG).
[[nodiscard]] units::Language users_language();

/// Of a line of words: what --language says, else what the trip file says that it names, else the
/// user's. English for a program that another one started, which puts it into words of its own.
[[nodiscard]] units::Language refusal_language(int argc, const char* const* argv);

}  // namespace lodeway::cli
