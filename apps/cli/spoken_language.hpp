#pragma once
/// The language that help, progress and questions are in. It is known from the line of words before
/// any command is made (refusal_language.hpp), and the same for all of them: set once, by `run`.
#include "lodeway/units/language.hpp"

namespace lodeway::cli {

void speak(units::Language language);
[[nodiscard]] units::Language spoken_language();

}  // namespace lodeway::cli
