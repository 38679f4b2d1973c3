#pragma once
/// The words of help in two languages. The English stands with its command, where the option is
/// added; its German stands here. `tools/help_words` holds that every text of help has its German
/// here, that both show the same commands, and that no German is left over.
#include <span>
#include <string>
#include <string_view>

#include "lodeway/units/language.hpp"

namespace lodeway::cli {

struct HelpWord {
  std::string_view english, german;
};
/// The table. No two have the same English.
[[nodiscard]] std::span<const HelpWord> help_words();

/// `english` in `language`; the English itself where the table has none.
[[nodiscard]] std::string help_in(units::Language language, std::string_view english);

}  // namespace lodeway::cli
