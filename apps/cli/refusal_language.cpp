#include "apps/cli/refusal_language.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>

#include "apps/cli/fault_status.hpp"
#include "lodeway/units/refusal_in.hpp"

namespace lodeway::cli {

namespace {

std::optional<units::Language> named(std::string_view word) {
  if (word == "de") return units::Language::german;
  if (word == "en") return units::Language::english;
  return std::nullopt;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r";
  const auto from = text.find_first_not_of(blanks);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(blanks) - from + 1);
}

/// `language = "de"` in its table [paper]: also of a file that cannot be read further down.
std::optional<units::Language> of_trip(const std::string& path) {
  constexpr int most_lines = 1000;
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) return std::nullopt;
  std::ifstream file(path);
  std::string line;
  bool in_paper = false;
  for (int i = 0; i < most_lines && std::getline(file, line); ++i) {
    const auto text = trimmed(line);
    if (text.starts_with('[')) in_paper = text.starts_with("[paper]");
    const auto equals = text.find('=');
    if (equals == std::string_view::npos) continue;
    if (trimmed(text.substr(0, equals)) != (in_paper ? "language" : "paper.language")) continue;
    const auto value = trimmed(text.substr(equals + 1));
    if (value.size() < 4 || (value[0] != '"' && value[0] != '\'')) return std::nullopt;
    return named(value.substr(1, value.find(value[0], 1) - 1));
  }
  return std::nullopt;
}

std::string_view environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string_view() : std::string_view(value);
}

}  // namespace

units::Language users_language() {
  return units::language_of_locale(environment("LC_ALL"), environment("LC_MESSAGES"),
                                   environment("LANG"));
}

units::Language refusal_language(int argc, const char* const* argv) {
  if (std::getenv(progress_fd_name) != nullptr) return units::Language::english;
  constexpr std::string_view option = "--language", joined = "--language=";
  std::optional<units::Language> trips;
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    std::optional<units::Language> asked;
    if (word == option && i + 1 < argc) asked = named(argv[i + 1]);
    if (word.starts_with(joined)) asked = named(word.substr(joined.size()));
    if (asked) return *asked;
    if (!trips && word.ends_with(".toml")) trips = of_trip(std::string(word));
  }
  return trips ? *trips : users_language();
}

}  // namespace lodeway::cli
