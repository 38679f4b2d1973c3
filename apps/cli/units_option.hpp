#pragma once
/// `--angle degrees|mils` and `--units metric|imperial`: how text for people writes figures. JSON
/// keeps the units that its keys name.
#include <string>

namespace CLI {
class App;
}

namespace lodeway::cli {

struct UnitsOption {
  bool mils = false, imperial = false;
  void add_to(CLI::App& command);
  /// "86.3°" or "1534 mil"
  [[nodiscard]] std::string angle(double degrees) const;
  /// "086.3°": with three figures before the point, as bearings are said; mils with four.
  [[nodiscard]] std::string bearing(double degrees) const;
  /// "1018 m", "4.20 km"; "3340 ft", "2.61 mi"
  [[nodiscard]] std::string length(double metres) const;
};

/// A JSON flag that every command has.
void add_json_flag(CLI::App& command, bool& json);

}  // namespace lodeway::cli
