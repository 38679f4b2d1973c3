#include "apps/cli/usage.hpp"

#include <algorithm>
#include <charconv>
#include <string_view>

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include "lodeway/units/nearest_word.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::cli {

namespace {

constexpr std::size_t most_shown = 60;
std::string shown(const std::string& text) { return units::plain(text, most_shown); }

/// The command that was meant, as deep as it is known: "ground build".
const CLI::App& innermost(const CLI::App& app) {
  const auto inner = app.get_subcommands();
  return inner.empty() ? app : innermost(*inner.front());
}

const CLI::Option* option_called(const CLI::App& app, const std::string& name) {
  const auto* found = app.get_option_no_throw(name);
  if (found != nullptr) return found;
  for (const auto* inner : app.get_subcommands()) {
    if (const auto* in = option_called(*inner, name)) return in;
  }
  return nullptr;
}

std::string between(const std::string& text, std::string_view before, std::string_view behind) {
  const auto from = text.find(before);
  if (from == std::string::npos) return {};
  const auto at = from + before.size();
  return text.substr(at, text.find(behind, at) - at);
}

std::string not_known(const CLI::App& app, const std::string& word) {
  const auto& at = innermost(app);
  std::vector<std::string> names;
  if (word.starts_with("-")) {
    for (const auto* option : at.get_options()) {
      for (const auto& name : option->get_lnames()) names.push_back("--" + name);
    }
  } else {
    for (const auto* command : at.get_subcommands([](const CLI::App*) { return true; }))
      names.push_back(command->get_name());
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  const auto name = word.substr(0, word.find('='));
  const char* what = word.starts_with("-") ? "this option is not known"
                     : names.empty()       ? "one word too many"
                                           : "this command is not known";
  return shown(word) + ": " + what + units::did_you_mean(name, views);
}

/// Of the words that nothing took: an option first, for what follows it may be its value.
std::string first_of(const std::vector<std::string>& words) {
  for (const auto& word : words) {
    if (word.starts_with("-")) return word;
  }
  return words.empty() ? std::string() : words.front();
}

std::string missing(const CLI::App& app, const std::string& said) {
  if (const auto left = first_of(app.remaining(true)); !left.empty()) return not_known(app, left);
  const auto name = said.substr(0, said.find(" is required"));
  if (name.size() < said.size() && !said.starts_with("A subcommand"))
    return name + ": expected, found none";
  std::vector<std::string> names;
  for (const auto* command : innermost(app).get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(command->get_name());
  return fmt::format("expected a command: {}", fmt::join(names, ", "));
}

std::string wrong_count(const CLI::App& app, const std::string& said) {
  const auto name = said.substr(0, said.find(':'));
  const auto* option = option_called(app, name);
  if (option == nullptr || !said.starts_with("-")) return shown(name) + ": expected a value";
  const int count = std::max(1, option->get_items_expected_min());
  return fmt::format("{}: expected {} value{}", name, count, count == 1 ? "" : "s");
}

}  // namespace

std::string usage_fault(const CLI::App& app, const CLI::ParseError& error) {
  const std::string said = error.what();
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
    return not_known(app, first_of(app.remaining(true)));
  }
  if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr) return missing(app, said);
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) return wrong_count(app, said);
  if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr) {
    const auto name = between(said, "Could not convert: ", " = ");
    const auto value = between(said, " = ", "\n");
    return name.empty() ? "expected another value"
                        : shown(name) + ": expected a number, got " + shown(value);
  }
  if (dynamic_cast<const CLI::ValidationError*>(&error) != nullptr) {  // a check of ours, or theirs
    const auto at = said.find(": ");
    const auto name = shown(said.substr(0, at));
    const auto what = at == std::string::npos ? std::string() : said.substr(at + 2);
    return name + ": " + (what.starts_with("expected") ? what : "expected another value");
  }
  return "these words do not go together";
}

Check one_of(std::vector<std::string> words) {
  return [words = std::move(words)](const std::string& given) {
    if (std::ranges::find(words, given) != words.end()) return std::string();
    return fmt::format("expected one of {}, got {}", fmt::join(words, ", "), shown(given));
  };
}

Check whole_within(long least, long most) {
  return [=](const std::string& given) {
    long value = 0;
    const auto [end, fault] = std::from_chars(given.data(), given.data() + given.size(), value);
    if (fault == std::errc{} && end == given.data() + given.size() && value >= least &&
        value <= most) {
      return std::string();
    }
    return fmt::format("expected a whole number from {} to {}, got {}", least, most, shown(given));
  };
}

Check number_within(double least, double most) {
  return [=](const std::string& given) {
    double value = 0;
    const auto [end, fault] = std::from_chars(given.data(), given.data() + given.size(), value);
    if (fault == std::errc{} && end == given.data() + given.size() && value >= least &&
        value <= most) {
      return std::string();
    }
    return fmt::format("expected a number from {} to {}, got {}", least, most, shown(given));
  };
}

}  // namespace lodeway::cli
