#include "apps/cli/command.hpp"

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <iostream>
#include <string>
#include <string_view>

#include "apps/cli/fault_status.hpp"
#include "apps/cli/version.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::cli {

namespace {
int refuse(const std::string& what) {
  // what it quotes of a file may hold what a terminal would obey, or no text at all
  std::fprintf(stderr, "lodeway: %s\n", units::plain(what, what.size()).c_str());
  return 2;
}

/// An answer that did not arrive is no answer. Whoever closed the pipe knows, and is told nothing.
int end_output(int status) {
  std::cout.flush();
  errno = 0;
  const bool flushed = std::fflush(stdout) == 0;
  if (flushed && std::ferror(stdout) == 0 && std::cout) return status;
  if (errno == EPIPE) return 2;
  return refuse(std::string("standard output: could not be written") +
                (errno != 0 ? std::string(": ") + std::strerror(errno) : std::string()));
}
}  // namespace

int run(int argc, char** argv, std::span<const AddCommand> commands) {
  std::signal(SIGXFSZ, SIG_IGN);  // a file-size limit is a write error like a full disk
  CommandLine line("lodeway",
                   "Lodeway prepares, proves and prints a journey on foot by map and compass.",
                   std::string("lodeway ") + version());
  line.program().require_subcommand(1);
  for (const AddCommand add : commands) add(line.program());
  // As a shell passes "$FILE" on when it was never set: not asked for is not the same as forgotten.
  const auto empty = std::find_if(argv + 1, argv + argc, [](std::string_view word) {
    return word.empty() || (word.starts_with("--") && word.ends_with('='));
  });
  if (empty != argv + argc) {
    return refuse("word " + std::to_string(empty - argv) +
                  " after lodeway is empty: expected a value");
  }
  try {
    if (const auto read = line.read(argc, argv); !read) return refuse(read.error().what);
  } catch (const Stopped& stopped) {
    const int status = refuse(stopped.fault.what);
    return std::getenv(progress_fd_name) == nullptr
               ? status
               : first_fault_status + static_cast<int>(stopped.fault.code);
  } catch (const std::bad_alloc&) {
    return refuse("out of memory: ask for a smaller area or a larger cell");
  } catch (const std::exception& e) {
    return refuse(e.what());
  }
  return end_output(0);
}

}  // namespace lodeway::cli
