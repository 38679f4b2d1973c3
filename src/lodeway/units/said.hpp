#pragma once
/// A sentence in one of two languages, its places filled in.
#include <concepts>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "lodeway/units/language.hpp"

namespace lodeway::units {

[[nodiscard]] constexpr const char* in(Language language, const char* english,
                                       const char* german) {
  return language == Language::german ? german : english;
}

/// 3.5 as that language writes it: points between digits become commas in German.
[[nodiscard]] std::string decimals(Language language, std::string text);

/// What a place is filled with.
using Filling = std::variant<double, long long, std::string_view>;
[[nodiscard]] inline Filling filling(double value) { return value; }
[[nodiscard]] inline Filling filling(std::integral auto value) {
  return static_cast<long long>(value);
}
[[nodiscard]] inline Filling filling(std::string_view text) { return text; }

/// The wording's places, "{}" or "{0:.1f}", filled in; a wording that does not fit them throws, which is our own mistake.
[[nodiscard]] std::string filled(Language language, const char* wording,
                                 const std::vector<Filling>& with);

/// Both wordings take the same fillings, by "{0}" where their order differs. No file names or dates
/// with points among them: a point between digits is taken for a decimal's.
template <class... Args>
[[nodiscard]] std::string said(Language language, const char* english, const char* german,
                               const Args&... args) {
  return filled(language, in(language, english, german), {filling(args)...});
}

}  // namespace lodeway::units
