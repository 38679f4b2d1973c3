#pragma once
/// `--angle degrees|mils` and `--units metric|imperial`: how text for people writes figures. JSON
/// keeps the units that its keys name.
#include <cstdint>
#include <string>

#include "apps/cli/arguments.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::cli {

struct UnitsOption {
  units::TextStyle style;
  void add_to(Command& command);
};

/// --seed: any whole number from 0 that 64 bits hold.
void add_seed(Command& command, std::uint64_t& seed, const std::string& what);

/// --language en|de; without it the language of the computer's user.
void add_language(Command& command, bool& german, const std::string& what);

/// A JSON flag that every command has.
void add_json_flag(Command& command, bool& json);

}  // namespace lodeway::cli
