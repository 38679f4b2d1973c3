#include "lodeway/units/refusal_in.hpp"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "lodeway/units/refusal_words.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::units {

namespace {

/// A refusal quotes what it was given: longer ones are cut before they are shown, and stay English.
constexpr std::size_t longest = 4000;
constexpr int deepest = 6, most_places = 8;
/// What a file made to be slow may cost: then the line stays English.
constexpr int most_readings = 500;
constexpr std::string_view figure = "{}", words = "{~}", after_place = ": ";

struct Template {
  std::vector<std::string_view> pieces;  ///< what stands between the holes; one more than holes
  std::vector<bool> is_words;            ///< for each hole
  std::string_view german;
  std::size_t letters = 0;  ///< that stand fixed
};

Template parsed(const RefusalWord& word) {
  Template out;
  out.german = word.german;
  std::string_view left = word.english;
  for (;;) {
    const auto f = left.find(figure), w = left.find(words);
    const auto at = std::min(f, w);
    const auto piece = left.substr(0, at);
    out.pieces.push_back(piece);
    out.letters += piece.size();
    if (at == std::string_view::npos) return out;
    out.is_words.push_back(w < f);
    left.remove_prefix(at + (w < f ? words.size() : figure.size()));
  }
}

/// The most telling first; of two alike the one that comes first in its table.
const std::vector<Template>& templates() {
  static const std::vector<Template> all = [] {
    std::vector<Template> out;
    for (const auto& word : refusal_words()) out.push_back(parsed(word));
    for (const auto& word : refusal_words_of_files()) out.push_back(parsed(word));
    for (const auto& word : refusal_words_of_grounds()) out.push_back(parsed(word));
    std::ranges::stable_sort(out, std::greater{}, &Template::letters);
    return out;
  }();
  return all;
}

/// What stands in the holes, each as short as it may be; nothing where the text is another.
std::optional<std::vector<std::string_view>> held(const Template& t, std::string_view text) {
  if (!text.starts_with(t.pieces.front())) return std::nullopt;
  std::vector<std::string_view> out;
  if (t.is_words.empty()) {
    if (text.size() != t.pieces.front().size()) return std::nullopt;
    return out;
  }
  text.remove_prefix(t.pieces.front().size());
  for (std::size_t i = 1; i < t.pieces.size(); ++i) {
    const auto piece = t.pieces[i];
    const bool last = i + 1 == t.pieces.size();
    if (text.empty()) return std::nullopt;
    std::size_t at = 0;
    if (last) {
      if (text.size() <= piece.size() || !text.ends_with(piece)) return std::nullopt;
      at = text.size() - piece.size();
    } else {
      at = text.find(piece, 1);
      if (at == std::string_view::npos) return std::nullopt;
    }
    out.push_back(text.substr(0, at));
    text.remove_prefix(at + piece.size());
  }
  return out;
}

/// "{}" in turn and "{0}" by number; other braces stand for themselves.
std::string with_values(std::string_view german, const std::vector<std::string>& values) {
  std::string out;
  std::size_t next = 0;
  while (!german.empty()) {
    const auto open = german.find('{');
    out += german.substr(0, open);
    if (open == std::string_view::npos) break;
    german.remove_prefix(open);
    const auto close = german.find('}');
    std::size_t which = next;
    const bool comma = close == 2 && german[1] == ',';
    bool hole = close == 1 || comma;
    if (close == 2 && !comma) {
      const auto [end, error] = std::from_chars(german.data() + 1, german.data() + 2, which);
      hole = error == std::errc{} && end == german.data() + 2;
    } else if (hole) {
      ++next;
    }
    if (hole && which < values.size()) {
      out += comma ? decimals(Language::german, values[which]) : values[which];
      german.remove_prefix(close + 1);
    } else {
      out += '{';
      german.remove_prefix(1);
    }
  }
  return out;
}

struct Reading {
  int depth = 0;
  int* left;

  [[nodiscard]] Reading inner() const { return {depth + 1, left}; }
};

std::optional<std::string> translated(std::string_view text, Reading reading);

std::optional<std::string> whole(std::string_view text, Reading reading) {
  if (--*reading.left < 0) return std::nullopt;
  for (const Template& t : templates()) {
    const auto holes = held(t, text);
    if (!holes) continue;
    std::vector<std::string> values;
    for (std::size_t i = 0; i < holes->size(); ++i) {
      if (!t.is_words[i]) {
        values.emplace_back((*holes)[i]);
        continue;
      }
      auto value = translated((*holes)[i], reading.inner());
      if (!value) break;
      values.push_back(*std::move(value));
    }
    if (values.size() == holes->size()) return with_values(t.german, values);
  }
  return std::nullopt;
}

/// "trip.toml:4", "party.size" stay; "leg 3" has its word.
std::string place(std::string_view text, Reading reading) {
  return whole(text, reading).value_or(std::string(text));
}

std::optional<std::string> translated(std::string_view text, Reading reading) {
  if (reading.depth > deepest) return std::nullopt;
  std::string places;
  for (int i = 0; i <= most_places; ++i) {
    if (const auto rest = whole(text, reading)) return places + *rest;
    const auto cut = text.find(after_place);
    if (cut == std::string_view::npos || cut == 0) return std::nullopt;
    places += place(text.substr(0, cut), reading.inner());
    places += after_place;
    text.remove_prefix(cut + after_place.size());
  }
  return std::nullopt;
}

}  // namespace

std::string refusal_in_german(std::string_view english) {
  if (english.size() > longest) return {};
  int left = most_readings;
  return translated(english, {0, &left}).value_or(std::string());
}

std::string refusal_in(Language language, std::string_view english) {
  auto german = language == Language::german ? refusal_in_german(english) : std::string();
  return german.empty() ? std::string(english) : german;
}

Language language_of_locale(std::string_view lc_all, std::string_view lc_messages,
                            std::string_view lang) {
  const auto name = !lc_all.empty() ? lc_all : !lc_messages.empty() ? lc_messages : lang;
  const bool german = name.starts_with("de") &&
                      (name.size() == 2 || name[2] == '_' || name[2] == '.' || name[2] == '@');
  return german ? Language::german : Language::english;
}

}  // namespace lodeway::units
