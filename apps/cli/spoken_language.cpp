#include "apps/cli/spoken_language.hpp"

namespace lodeway::cli {

namespace {
constinit units::Language spoken = units::Language::english;
}  // namespace

void speak(units::Language language) { spoken = language; }
units::Language spoken_language() { return spoken; }

}  // namespace lodeway::cli
