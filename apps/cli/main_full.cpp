/// `lodeway-full`: every command. Started by `lodeway`; can be started by itself.
#include <array>
#include <cstdio>

#include "apps/cli/command.hpp"
#include "apps/server/http/licences.hpp"
#include "apps/server/store/confine.hpp"

int main(int argc, char** argv) {
  lodeway::server::confine_if_asked();  // the server starts itself to read what strangers made
  constexpr std::array<lodeway::cli::AddCommand, LODEWAY_FULL_COUNT> commands{LODEWAY_FULL};
  return lodeway::cli::run(argc, argv, commands, [] {
    const auto text = lodeway::server::licences();
    std::fwrite(text.data(), 1, text.size(), stdout);
  });
}
