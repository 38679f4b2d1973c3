#pragma once
/// The words of the page beside those of the paper: English as the page holds it, and German. Where
/// paper and page say the same, the paper's table (wording.hpp) has it and the page takes it there.
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "lodeway/units/language.hpp"

namespace lodeway::trip {

struct PageWord {
  const char *english, *german;
};
/// The page's own. No two have the same English.
[[nodiscard]] std::span<const PageWord> page_words();
/// Its sentences, and those of the glossary and the marks.
[[nodiscard]] std::span<const PageWord> page_sentences();
/// What stands in options(): keys of a trip, what they change, what may be chosen.
[[nodiscard]] std::span<const PageWord> option_words();

/// Everything that the page looks up in a language: the paper's words first, then its own. English
/// gives none: the page has it already.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> words_for_page(
    units::Language language);

}  // namespace lodeway::trip
