#include "apps/cli/units_option.hpp"

#include <charconv>

#include "apps/cli/refusal_language.hpp"

namespace lodeway::cli {

void UnitsOption::add_to(Command& command) {
  command
      .add_option("--angle", style.mils, {{"degrees", false}, {"mils", true}},
                  "Angles in degrees or mils (6400 a turn)")
      ->option_text("degrees|mils");
  command
      .add_option("--units", style.imperial, {{"metric", false}, {"imperial", true}},
                  "Lengths metric or imperial (feet, miles)")
      ->option_text("metric|imperial");
}

void add_seed(Command& command, std::uint64_t& seed, const std::string& what) {
  const auto check = [](const std::string& word) {
    std::uint64_t whole = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), whole);
    return error == std::errc{} && end == word.data() + word.size()
               ? std::string()
               : "expected a whole number from 0, got " + word.substr(0, 60);
  };
  command.add_option("--seed", seed, what)->check(check)->capture_default_str();
}

void add_language(Command& command, bool& german, const std::string& what) {
  german = users_language() == units::Language::german;
  command.add_option("--language", german, {{"en", false}, {"de", true}}, what)
      ->option_text("en|de");
}

void add_json_flag(Command& command, bool& json) {
  command.add_flag("--json", json, "Answer as JSON, figures unrounded, units in the names");
}

}  // namespace lodeway::cli
