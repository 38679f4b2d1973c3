#include "apps/cli/units_option.hpp"

#include <charconv>
#include <map>

#include <CLI/CLI.hpp>

namespace lodeway::cli {

void UnitsOption::add_to(CLI::App& command) {
  command.add_option("--angle", style.mils, "Angles in degrees or mils (6400 a turn)")
      ->transform(
          CLI::CheckedTransformer(std::map<std::string, bool>{{"degrees", false}, {"mils", true}}))
      ->option_text("degrees|mils");
  command.add_option("--units", style.imperial, "Lengths metric or imperial (feet, miles)")
      ->transform(CLI::CheckedTransformer(
          std::map<std::string, bool>{{"metric", false}, {"imperial", true}}))
      ->option_text("metric|imperial");
}

void add_seed(CLI::App& command, std::uint64_t& seed, const std::string& what) {
  const auto check = [](const std::string& word) {
    std::uint64_t whole = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), whole);
    return error == std::errc{} && end == word.data() + word.size()
               ? std::string()
               : "expected a whole number from 0, got " + word;
  };
  command.add_option("--seed", seed, what)->check(check)->capture_default_str();
}

void add_json_flag(CLI::App& command, bool& json) {
  command.add_flag("--json", json, "Answer as JSON, figures unrounded, units in the names");
}

}  // namespace lodeway::cli
