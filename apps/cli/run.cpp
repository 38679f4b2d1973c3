#include "apps/cli/command.hpp"

#include <unistd.h>

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
#include "apps/cli/refusal_language.hpp"
#include "apps/cli/spoken_language.hpp"
#include "apps/cli/version.hpp"
#include "lodeway/units/refusal_in.hpp"
#include "lodeway/units/refusal_line.hpp"

namespace lodeway::cli {

namespace {
int refuse(units::Language language, const std::string& what) {
  // what it quotes of a file may hold what a terminal would obey, or no text at all
  const auto line = units::refusal_in(language, units::refusal_line(what));
  std::fprintf(stderr, "lodeway: %s\n", line.c_str());
  return 2;
}

/// An answer that did not arrive is no answer. Whoever closed the pipe knows, and is told nothing.
int end_output(units::Language language, int status) {
  errno = 0;
  std::cout.flush();  // tied to stdout: it may meet the fault first
  const bool flushed = std::fflush(stdout) == 0;
  if (flushed && std::ferror(stdout) == 0 && std::cout) return status;
  // It was met while the answer was still written, and why is forgotten since: asked once more.
  // The answer is cut short already; a line's end after it takes nothing from it.
  if (errno == 0) {
    [[maybe_unused]] const auto asked = write(STDOUT_FILENO, "\n", 1);
  }
  if (errno == EPIPE) return 2;
  return refuse(language,
                std::string("standard output: could not be written") +
                    (errno != 0 ? std::string(": ") + std::strerror(errno) : std::string()));
}
}  // namespace

int run(int argc, char** argv, std::span<const AddCommand> commands,
        const std::function<void()>& print_licences) {
  const auto language = refusal_language(argc, argv);
  speak(language);
  std::signal(SIGXFSZ, SIG_IGN);  // a file-size limit is a write error like a full disk
  CommandLine line("lodeway",
                   "Lodeway prepares, proves and prints a journey on foot by map and compass.",
                   std::string("lodeway ") + version());
  line.program().require_subcommand(1);
  if (print_licences)
    line.answer("--licences", "Whose work is inside, with the licences", print_licences);
  for (const AddCommand add : commands) add(line.program());
  // As a shell passes "$FILE" on when it was never set: not asked for is not the same as forgotten.
  const auto empty = std::find_if(argv + 1, argv + argc, [](std::string_view word) {
    return word.empty() || (word.starts_with("--") && word.ends_with('='));
  });
  if (empty != argv + argc) {
    return refuse(language, "word " + std::to_string(empty - argv) +
                                " after lodeway is empty: expected a value");
  }
  try {
    if (const auto read = line.read(argc, argv); !read) return refuse(language, read.error().what);
  } catch (const NotWithin&) {
    return end_output(language, 3);
  } catch (const Stopped& stopped) {
    const int status = refuse(language, stopped.fault.what);
    return std::getenv(progress_fd_name) == nullptr
               ? status
               : first_fault_status + static_cast<int>(stopped.fault.code);
  } catch (const std::bad_alloc&) {
    return refuse(language, "out of memory: ask for a smaller area or a larger cell");
  } catch (const std::exception& e) {
    return refuse(language, e.what());
  }
  return end_output(language, 0);
}

}  // namespace lodeway::cli
