#pragma once
/// The words of the page beside those of the paper and of the answers: English as the page holds it,
/// and German. What the paper says stands in the paper's table (wording.hpp), what the commands answer
/// in theirs (told.hpp), and the page takes it there; its own tables say it again only where the same
/// English means something else on the page (`tools/page_words` holds that).
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

/// Everything that the page looks up in a language: the paper's words, the answers', then its own; of
/// two Germans for one English the later one is the page's. English gives none: the page has it
/// already.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> words_for_page(
    units::Language language);

}  // namespace lodeway::trip
