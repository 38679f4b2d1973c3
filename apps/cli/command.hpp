#pragma once
/// The command line: each command is one file with one `add_…` function; main only lists them.
#include <span>
#include <utility>

#include "lodeway/result/result.hpp"

namespace CLI {
class App;
}

namespace lodeway::cli {

/// Thrown by a command, caught in `run`: one line on standard error, exit status 2.
struct Stopped {
  Fault fault;
};

template <class T>
[[nodiscard]] T value_or_stop(Result<T> result) {
  if (!result) throw Stopped{std::move(result.error())};
  return std::move(*result);
}
inline void stop_unless(const Result<void>& result) {
  if (!result) throw Stopped{result.error()};
}

using AddCommand = void (*)(CLI::App& app);

/// Parses, runs one command, turns every failure into one line and status 2.
int run(int argc, char** argv, std::span<const AddCommand> commands);

// Light: no ground, no files; these start within milliseconds.
void add_north(CLI::App& app);
void add_leg(CLI::App& app);
void add_sun(CLI::App& app);
void add_reckon(CLI::App& app);
// Full: all the rest.
void add_ground(CLI::App& app);
void add_way(CLI::App& app);
void add_paper(CLI::App& app);
void add_rehearse(CLI::App& app);
void add_serve(CLI::App& app);

}  // namespace lodeway::cli
