#include "apps/cli/command.hpp"

#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>
#include <string_view>

#include <CLI/CLI.hpp>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::cli {

namespace {
int refuse(const std::string& what) {
  // what it quotes of a file may hold what a terminal would obey, or no text at all
  std::fprintf(stderr, "lodeway: %s\n", units::plain(what, what.size()).c_str());
  return 2;
}
}  // namespace

int run(int argc, char** argv, std::span<const AddCommand> commands) {
  CLI::App app{"Lodeway prepares, proves and prints a journey on foot by map and compass.",
               "lodeway"};
  app.require_subcommand(1);
  app.set_version_flag("--version", "lodeway " LODEWAY_VERSION);
  for (const AddCommand add : commands) add(app);
  // As a shell passes "$FILE" on when it was never set: not asked for is not the same as forgotten.
  const auto empty = std::find_if(argv + 1, argv + argc, [](std::string_view word) {
    return word.empty() || (word.starts_with("--") && word.ends_with('='));
  });
  if (empty != argv + argc) {
    return refuse("word " + std::to_string(empty - argv) +
                  " after lodeway is empty: expected a value");
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp& e) {
    return app.exit(e);
  } catch (const CLI::CallForAllHelp& e) {
    return app.exit(e);
  } catch (const CLI::CallForVersion& e) {
    return app.exit(e);
  } catch (const CLI::ParseError& e) {
    return refuse(std::string(e.what()) + "; see lodeway --help");
  } catch (const Stopped& stopped) {
    return refuse(stopped.fault.what);
  } catch (const std::bad_alloc&) {
    return refuse("out of memory: ask for a smaller area or a larger cell");
  } catch (const std::exception& e) {
    return refuse(e.what());
  }
  return 0;
}

}  // namespace lodeway::cli
