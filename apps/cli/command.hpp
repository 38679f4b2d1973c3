#pragma once
/// The command line: each command is one file with one `add_…` function; main only lists them.
#include <functional>
#include <span>
#include <utility>

#include "apps/cli/arguments.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::cli {

/// Thrown by a command, caught in `run`: one line on standard error, exit status 2.
struct Stopped {
  Fault fault;
};

/// Thrown by a command whose answer is whole but whose verdict is outside the limits or not judged:
/// exit status 3.
struct NotWithin {};

template <class T>
[[nodiscard]] T value_or_stop(Result<T> result) {
  if (!result) throw Stopped{std::move(result.error())};
  return std::move(*result);
}
inline void stop_unless(const Result<void>& result) {
  if (!result) throw Stopped{result.error()};
}

using AddCommand = void (*)(Command& app);

/// Parses, runs one command, turns every failure into one line and status 2. `print_licences`
/// answers --licences; empty: this program does not know it.
int run(int argc, char** argv, std::span<const AddCommand> commands,
        const std::function<void()>& print_licences = {});

// Light: no ground, no files; these start within milliseconds.
void add_north(Command& app);
void add_leg(Command& app);
void add_sun(Command& app);
void add_reckon(Command& app);
// Full: all the rest.
void add_ground(Command& app);
void add_way(Command& app);
void add_paper(Command& app);
void add_rehearse(Command& app);
void add_relocate(Command& app);
void add_serve(Command& app);
void add_learn(Command& app);
void add_train(Command& app);
void add_debrief(Command& app);

}  // namespace lodeway::cli
