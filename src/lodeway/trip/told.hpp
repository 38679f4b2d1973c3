#pragma once
/// What the commands answer, in the language of the trip. The English stands where it is said, as a
/// format; its German stands beside the same English in one table (told.cpp). `tools/told_words`
/// holds that each English that is said has its German there, with the same fields, and that no
/// German is left over.
#include <span>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "lodeway/units/language.hpp"

namespace lodeway::trip {

struct ToldWord {
  std::string_view english, german;
};
/// The table. No two have the same English.
[[nodiscard]] std::span<const ToldWord> told_words();

/// `english` in `language`; the English itself where the table has none.
[[nodiscard]] std::string_view told_in(units::Language language, std::string_view english);

/// The words with their values filled in. `english` is a format, checked when it is compiled; a
/// decimal is given as text (figure_text.hpp, decimal_text), for its point is a comma in German.
template <class... Values>
[[nodiscard]] std::string told(units::Language language, fmt::format_string<Values...> english,
                               Values&&... values) {
  const fmt::string_view own = english;
  const auto words = told_in(language, {own.data(), own.size()});
  return fmt::vformat(fmt::string_view(words.data(), words.size()),
                      fmt::make_format_args(values...));
}

}  // namespace lodeway::trip
