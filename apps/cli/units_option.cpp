#include "apps/cli/units_option.hpp"

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

void add_json_flag(CLI::App& command, bool& json) {
  command.add_flag("--json", json, "Answer as JSON, figures unrounded, units in the names");
}

}  // namespace lodeway::cli
