#pragma once
/// How a help page looks, in our own words instead of the library's.
#include "lodeway/units/language.hpp"

namespace CLI {
class App;
}

namespace lodeway::cli {

/// For the program before its commands are added: they have it from their program.
void show_help_in(CLI::App& app, units::Language language);

}  // namespace lodeway::cli
