#include "apps/cli/command.hpp"

#include <poll.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <exception>
#include <string>
#include <string_view>

#include "apps/cli/version.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::cli {

namespace {
int refuse(const std::string& what) {
  // what it quotes of a file may hold what a terminal would obey, or no text at all
  std::fprintf(stderr, "lodeway: %s\n", units::plain(what, what.size()).c_str());
  return 2;
}

/// Is standard output a pipe that nobody reads from any more?
bool nobody_reads() {
  pollfd out{STDOUT_FILENO, POLLOUT, 0};
  return poll(&out, 1, 0) > 0 && (out.revents & POLLERR) != 0;
}

/// An answer that was not written whole is a fault (a full disk); a reader that has heard enough
/// (`| head`) is none.
int written(int status) {
  errno = 0;
  const bool flushed = std::fflush(stdout) == 0;
  if ((flushed && std::ferror(stdout) == 0) || errno == EPIPE || nobody_reads()) return status;
  return refuse("standard output: could not be written" +
                (errno != 0 ? std::string(": ") + std::strerror(errno) : std::string()));
}

int answer(int argc, char** argv, std::span<const AddCommand> commands,
           const std::function<void()>& print_licences);
}  // namespace

int run(int argc, char** argv, std::span<const AddCommand> commands,
        const std::function<void()>& print_licences) {
  return written(answer(argc, argv, commands, print_licences));
}

namespace {
int answer(int argc, char** argv, std::span<const AddCommand> commands,
           const std::function<void()>& print_licences) {
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
    return refuse("word " + std::to_string(empty - argv) +
                  " after lodeway is empty: expected a value");
  }
  try {
    if (const auto read = line.read(argc, argv); !read) return refuse(read.error().what);
  } catch (const NotWithin&) {
    return 3;
  } catch (const Stopped& stopped) {
    return refuse(stopped.fault.what);
  } catch (const std::bad_alloc&) {
    return refuse("out of memory: ask for a smaller area or a larger cell");
  } catch (const std::exception& e) {
    return refuse(e.what());
  }
  return 0;
}
}  // namespace

}  // namespace lodeway::cli
