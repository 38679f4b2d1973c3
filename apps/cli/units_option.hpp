#pragma once
/// `--angle degrees|mils` and `--units metric|imperial`: how text for people writes figures. JSON
/// keeps the units that its keys name.
#include "lodeway/units/text.hpp"

namespace CLI {
class App;
}

namespace lodeway::cli {

struct UnitsOption {
  units::TextStyle style;
  void add_to(CLI::App& command);
};

/// A JSON flag that every command has.
void add_json_flag(CLI::App& command, bool& json);

}  // namespace lodeway::cli
