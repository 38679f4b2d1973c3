#pragma once
/// What a refusal says, made fit to be shown, wherever it is shown.
#include <string>
#include <string_view>

namespace lodeway::units {

/// One line as plain() makes it. What it quotes of a file, of the line or of the page may be
/// endless: between double quotes at most 60 letters stay, and of a word longer than any path that
/// people type, 250 bytes, as many.
[[nodiscard]] std::string refusal_line(std::string_view what);

}  // namespace lodeway::units
