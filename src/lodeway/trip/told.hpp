#pragma once
/// What the commands answer, in the language of the trip. The English stands where it is said; its
/// German stands beside the same English in one table (told.cpp). `tools/told_words` holds that
/// each English that is said has its German there, with the same number of values, and that no
/// German is left over.
#include <concepts>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>

#include "lodeway/units/language.hpp"

namespace lodeway::trip {

struct ToldWord {
  std::string_view english, german;
};
/// The table. No two have the same English.
[[nodiscard]] std::span<const ToldWord> told_words();

/// `english` in `language`; the English itself where the table has none.
[[nodiscard]] std::string_view told_in(units::Language language, std::string_view english);

/// What stands for a "{}": text as it is, a number as a whole one. A decimal is given as text
/// (figure_text.hpp, decimal_text), for its point is a comma in German.
struct ToldValue {
  std::string text;
  template <class Text>
    requires std::convertible_to<Text, std::string_view>
  ToldValue(const Text& value) : text(std::string_view(value)) {}
  template <std::integral Whole>
  ToldValue(Whole value) : text(std::to_string(value)) {}
  ToldValue(double value);
};

/// The words in `language`, each "{}" in turn replaced by its value.
[[nodiscard]] std::string told(units::Language language, std::string_view english,
                               std::initializer_list<ToldValue> values = {});

}  // namespace lodeway::trip
