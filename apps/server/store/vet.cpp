// A file from outside is first read where it can do no harm: in a process that may take so much
// memory and time and no more.
#include <fcntl.h>
#include <spawn.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <memory>
#include <string>

#include "apps/server/store/shelf.hpp"

extern char** environ;  // NOLINT: what the child inherits

namespace lodeway::server {

namespace {

// A shell sets the limits, then becomes the program; $0 and $1 are never read as shell text. A
// sanitizer's shadow of the memory is larger than any limit.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define LODEWAY_MEMORY_LIMIT ""
#else
#define LODEWAY_MEMORY_LIMIT "ulimit -v 6291456 && "
#endif
constexpr const char* limited =
    LODEWAY_MEMORY_LIMIT "ulimit -t 90 && ulimit -c 0 && exec \"$0\" ground show \"$1\" --json";

std::string own_program() {
  std::array<char, 4096> self{};
  const auto length = readlink("/proc/self/exe", self.data(), self.size() - 1);
  return length > 0 ? std::string(self.data(), static_cast<std::size_t>(length)) : "lodeway-full";
}

/// The first line that the child wrote to standard error.
std::string first_line(int from) {
  std::string text;
  std::array<char, 1024> piece{};
  for (ssize_t n = 0; (n = read(from, piece.data(), piece.size())) > 0;) {
    if (text.size() < 4096) text.append(piece.data(), static_cast<std::size_t>(n));
  }
  return text.substr(0, text.find('\n'));
}

/// A ground has tables only. A view runs SQL of its maker whenever it is read, for ever if it
/// pleases: such a file is not opened at all.
Result<void> vet_schema(const std::string& path) {
  const auto refuse = [&] {
    return fail(FaultCode::bad_input, path + ": it cannot be read as a ground file");
  };
  sqlite3* opened = nullptr;
  const int status = sqlite3_open_v2(path.c_str(), &opened, SQLITE_OPEN_READONLY, nullptr);
  const std::unique_ptr<sqlite3, int (*)(sqlite3*)> db(opened, sqlite3_close);
  if (status != SQLITE_OK) return refuse();
  sqlite3_stmt* prepared = nullptr;
  sqlite3_prepare_v2(db.get(), "SELECT count(*) FROM sqlite_master WHERE type = 'view'", -1,
                     &prepared, nullptr);
  const std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)> ask(prepared, sqlite3_finalize);
  if (!ask || sqlite3_step(ask.get()) != SQLITE_ROW) return refuse();
  if (sqlite3_column_int64(ask.get(), 0) > 0)
    return fail(FaultCode::bad_input, path + ": expected a ground file, which has no views");
  return {};
}

}  // namespace

Result<void> vet_ground(const std::string& path) {
  if (auto plain = vet_schema(path); !plain) return plain;
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return fail(FaultCode::io_failed, "no more pipes");
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_adddup2(&actions, ends[1], 2);
  const std::string program = own_program();
  const std::array<const char*, 6> words{"sh",         "-c",   limited, program.c_str(),
                                         path.c_str(), nullptr};
  pid_t child = 0;
  const int started =
      posix_spawn(&child, "/bin/sh", &actions, nullptr, const_cast<char**>(words.data()), environ);
  posix_spawn_file_actions_destroy(&actions);
  close(ends[1]);
  if (started != 0) {
    close(ends[0]);
    return fail(FaultCode::io_failed, "no more processes");
  }
  std::string line = first_line(ends[0]);
  close(ends[0]);
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return {};
  constexpr std::string_view own_name = "lodeway: ";
  if (line.starts_with(own_name)) line.erase(0, own_name.size());
  if (WIFSIGNALED(status) || line.empty())
    return fail(FaultCode::bad_input, path + ": it cannot be read as a ground file");
  return fail(FaultCode::bad_input, line);
}

}  // namespace lodeway::server
