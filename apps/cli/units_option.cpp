#include "apps/cli/units_option.hpp"

#include <cmath>
#include <map>

#include <fmt/format.h>
#include <CLI/CLI.hpp>

namespace lodeway::cli {

namespace {
constexpr double mils_per_degree = 6400.0 / 360.0, feet_per_metre = 1 / 0.3048,
                 metres_per_mile = 1609.344;
}

void UnitsOption::add_to(CLI::App& command) {
  command.add_option("--angle", mils, "Angles in degrees or mils (6400 a turn)")
      ->transform(
          CLI::CheckedTransformer(std::map<std::string, bool>{{"degrees", false}, {"mils", true}}))
      ->option_text("degrees|mils");
  command.add_option("--units", imperial, "Lengths metric or imperial (feet, miles)")
      ->transform(CLI::CheckedTransformer(
          std::map<std::string, bool>{{"metric", false}, {"imperial", true}}))
      ->option_text("metric|imperial");
}

std::string UnitsOption::angle(double degrees) const {
  return mils ? fmt::format("{:.0f} mil", degrees * mils_per_degree)
              : fmt::format("{:.1f}°", degrees);
}

std::string UnitsOption::bearing(double degrees) const {
  if (mils)
    return fmt::format("{:04.0f} mil", std::fmod(std::round(degrees * mils_per_degree), 6400));
  return fmt::format("{:05.1f}°", std::fmod(std::round(degrees * 10) / 10, 360));
}

std::string UnitsOption::length(double m) const {
  if (imperial) {
    return m < 2000 ? fmt::format("{:.0f} ft", m * feet_per_metre)
                    : fmt::format("{:.2f} mi", m / metres_per_mile);
  }
  return m < 10000 ? fmt::format("{:.0f} m", m) : fmt::format("{:.2f} km", m / 1000);
}

void add_json_flag(CLI::App& command, bool& json) {
  command.add_flag("--json", json, "Answer as JSON, figures unrounded, units in the names");
}

}  // namespace lodeway::cli
