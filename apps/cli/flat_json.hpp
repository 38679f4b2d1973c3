#pragma once
/// The answers of the quick commands as JSON: one object of figures and words. A door, so that the
/// library behind it is compiled once (`flat_json.cpp`).
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace lodeway::cli {

/// Yes or no, a figure unrounded, a word, or null.
using JsonValue = std::variant<std::nullptr_t, bool, double, std::string>;
using JsonObject = std::vector<std::pair<std::string, JsonValue>>;

/// A word, or null when there is none.
[[nodiscard]] inline JsonValue word_or_null(const std::optional<std::string>& word) {
  return word ? JsonValue(*word) : JsonValue(nullptr);
}

/// The object on standard output, its keys in the order given, a key a line.
void print_json(const JsonObject& object);

}  // namespace lodeway::cli
