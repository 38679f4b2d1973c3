/// `lodeway`: answers the quick questions itself and hands the rest to `lodeway-full` beside it,
/// so that a bearing is not kept waiting while the libraries for maps are loaded
/// (docs/decisions/0002-two-programs.md).
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstring>
#include <string>

#include "apps/cli/command.hpp"
#include "apps/cli/refusal_language.hpp"
#include "lodeway/units/refusal_in.hpp"

namespace {
constexpr std::array light{"north", "leg", "sun", "reckon"};

bool is_light(const char* command) {
  for (const char* name : light) {
    if (std::strcmp(name, command) == 0) return true;
  }
  return false;
}

int hand_over(char** argv) {
  std::array<char, 4096> self{};
  const auto length = readlink("/proc/self/exe", self.data(), self.size() - 1);
  std::string program =
      length > 0 ? std::string(self.data(), static_cast<size_t>(length)) : argv[0];
  program += "-full";
  execv(program.c_str(), argv);
  const auto what = lodeway::units::refusal_in(
      lodeway::cli::users_language(),
      program + ": expected the program beside lodeway, could not start it");
  std::fprintf(stderr, "lodeway: %s\n", what.c_str());
  return 2;
}
}  // namespace

int main(int argc, char** argv) {
  if (argc < 2 || !is_light(argv[1])) return hand_over(argv);
  constexpr std::array<lodeway::cli::AddCommand, LODEWAY_LIGHT_COUNT> commands{LODEWAY_LIGHT};
  return lodeway::cli::run(argc, argv, commands);
}
