/// `lodeway-full`: every command. Started by `lodeway`; can be started by itself.
#include <array>

#include "apps/cli/command.hpp"

int main(int argc, char** argv) {
  constexpr std::array<lodeway::cli::AddCommand, LODEWAY_FULL_COUNT> commands{LODEWAY_FULL};
  return lodeway::cli::run(argc, argv, commands);
}
