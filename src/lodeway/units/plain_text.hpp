#pragma once
/// Text from outside made fit for one line, on paper or a screen.
#include <string>
#include <string_view>
#include <vector>

namespace lodeway::units {

/// At most `max_letters` code points: control characters (C0, C1, line separators, direction
/// overrides) and what Unicode keeps free of letters (U+FFFE and the like) become one blank, bytes that are not UTF-8 become U+FFFD, ends are trimmed; what is
/// cut off is shown by an ellipsis.
[[nodiscard]] std::string plain(std::string_view text, std::size_t max_letters = 200);

/// The text's code points, each as its own UTF-8 string; the text is plain().
[[nodiscard]] std::vector<std::string_view> letters(std::string_view text);

}  // namespace lodeway::units
