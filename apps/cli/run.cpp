#include "apps/cli/command.hpp"

#include <cstdio>
#include <exception>
#include <string>

#include <CLI/CLI.hpp>

namespace lodeway::cli {

namespace {
int refuse(const std::string& what) {
  std::string line = what;
  for (char& c : line) {
    if (c == '\n' || c == '\r') c = ' ';
  }
  std::fprintf(stderr, "lodeway: %s\n", line.c_str());
  return 2;
}
}  // namespace

int run(int argc, char** argv, std::span<const AddCommand> commands) {
  CLI::App app{"Lodeway prepares, proves and prints a journey on foot by map and compass.",
               "lodeway"};
  app.require_subcommand(1);
  app.set_version_flag("--version", "lodeway " LODEWAY_VERSION);
  for (const AddCommand add : commands) add(app);
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
