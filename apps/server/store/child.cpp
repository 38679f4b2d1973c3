#include "apps/server/store/child.hpp"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <charconv>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <string_view>

#include "apps/cli/fault_status.hpp"
#include "apps/server/store/confine.hpp"

extern char** environ;  // NOLINT: what the child inherits

namespace lodeway::server {

namespace {

constexpr int progress_fd = 3;
constexpr std::size_t most_answer = 16U << 20U, most_said = 4096;

std::string own_program() {
  std::array<char, 4096> self{};
  const auto length = readlink("/proc/self/exe", self.data(), self.size() - 1);
  return length > 0 ? std::string(self.data(), static_cast<std::size_t>(length)) : "lodeway-full";
}

/// What the server has, without what would lead GDAL or PROJ elsewhere, and with the confinement.
std::vector<std::string> environment(const ChildRequest& request) {
  std::vector<std::string> out;
  for (char** one = environ; *one != nullptr; ++one) {
    const std::string_view line(*one);
    bool passes = true;
    for (const char* kept_back : {"GDAL_", "OGR_", "CPL_", "PROJ_NETWORK=", "TMPDIR=", "SQLITE_",
                                  "LODEWAY_CONFINED", cli::progress_fd_name}) {
      passes = passes && !line.starts_with(kept_back);
    }
    if (line.starts_with("GDAL_DATA=") || passes) out.emplace_back(line);
  }
  out.push_back(std::string(confine_folder) + "=" + request.folder);
  out.push_back(std::string(confine_memory) + "=" + std::to_string(request.memory_gib));
  out.push_back(std::string(confine_time) + "=" + std::to_string(request.processor_s));
  out.push_back(std::string(confine_for) + "=" + std::to_string(getpid()));
  if (!request.folder.empty()) out.push_back("TMPDIR=" + request.folder);
  out.push_back(std::string(cli::progress_fd_name) + "=" + std::to_string(progress_fd));
  return out;
}

std::vector<char*> pointers(std::vector<std::string>& words) {
  std::vector<char*> out;
  for (auto& word : words) out.push_back(word.data());
  out.push_back(nullptr);
  return out;
}

/// A pipe from the child; the end that it writes to is handed over and closed here.
struct Pipe {
  int from = -1, to = -1;
  std::string text;
  bool open() {
    std::array<int, 2> ends{};
    if (pipe2(ends.data(), O_CLOEXEC) != 0) return false;
    from = ends[0];
    to = ends[1];
    return true;
  }
  void started() {
    if (to >= 0) close(to);
    to = -1;
  }
  void shut() {
    if (from >= 0) close(from);
    from = -1;
  }
  Pipe() = default;
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  ~Pipe() {
    started();
    shut();
  }
  /// False when the other side is gone.
  bool take(std::size_t most) {
    std::array<char, 16384> piece{};
    const auto n = read(from, piece.data(), piece.size());
    if (n <= 0) return n < 0 && (errno == EAGAIN || errno == EINTR);
    if (text.size() < most) text.append(piece.data(), static_cast<std::size_t>(n));
    return true;
  }
};

/// "0.25 reading dem.tif" lines; the last whole one counts.
bool tell(std::string& lines, tasks::Progress* progress, double& share, std::string& doing) {
  const auto end = lines.rfind('\n');
  if (end != std::string::npos) {
    const auto begin = end == 0 ? std::string::npos : lines.rfind('\n', end - 1);
    const auto from = begin == std::string::npos ? 0 : begin + 1;
    const auto line = lines.substr(from, end - from);
    lines.erase(0, end + 1);
    const auto blank = std::min(line.find(' '), line.size());
    std::from_chars(line.data(), line.data() + blank, share);
    if (blank < line.size()) doing = line.substr(blank + 1, 200);
  }
  return progress == nullptr || progress->go_on(share, doing);
}

}  // namespace

Result<std::string> run_confined(const ChildRequest& request, tasks::Progress* progress) {
  Pipe out, said, done;
  if (!out.open() || !said.open() || !done.open())
    return fail(FaultCode::io_failed, "no more pipes");
  std::vector<std::string> words{own_program()}, around = environment(request);
  words.insert(words.end(), request.words.begin(), request.words.end());
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_adddup2(&actions, out.to, 1);
  posix_spawn_file_actions_adddup2(&actions, said.to, 2);
  posix_spawn_file_actions_adddup2(&actions, done.to, progress_fd);
  posix_spawnattr_t attributes;  // the server blocks signals; its child shall hear them
  posix_spawnattr_init(&attributes);
  sigset_t none;
  sigemptyset(&none);
  posix_spawnattr_setsigmask(&attributes, &none);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
  pid_t child = 0;
  const int started = posix_spawn(&child, words[0].c_str(), &actions, &attributes,
                                  pointers(words).data(), pointers(around).data());
  posix_spawn_file_actions_destroy(&actions);
  posix_spawnattr_destroy(&attributes);
  for (auto* pipe : {&out, &said, &done}) pipe->started();
  if (started != 0) return fail(FaultCode::io_failed, "no more processes");
  bool stopped = false;
  double share = -1;
  std::string doing = "beginning";
  constexpr int look_every_ms = 50;
  std::array<pollfd, 3> ends{};
  while (out.from >= 0 || said.from >= 0) {
    const std::array<Pipe*, 3> pipes{&out, &said, &done};
    for (std::size_t i = 0; i < ends.size(); ++i) ends[i] = {pipes[i]->from, POLLIN, 0};
    poll(ends.data(), ends.size(), look_every_ms);
    for (std::size_t i = 0; i < ends.size(); ++i) {
      if (pipes[i]->from >= 0 && ends[i].revents != 0 &&
          !pipes[i]->take(i == 0 ? most_answer : most_said)) {
        pipes[i]->shut();
      }
    }
    if (!stopped && !tell(done.text, progress, share, doing)) {
      stopped = true;
      kill(child, SIGKILL);
    }
  }
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (stopped) return fail(FaultCode::cancelled, "stopped");
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return std::move(out.text);
  std::string line = said.text.substr(0, said.text.find('\n'));
  constexpr std::string_view own_name = "lodeway: ";
  if (line.starts_with(own_name)) line.erase(0, own_name.size());
  if (WIFSIGNALED(status) || line.empty())
    return fail(FaultCode::bad_input,
                request.file + ": it cannot be read: it took too much memory or time, or is broken");
  const int code = WEXITSTATUS(status) - cli::first_fault_status;
  return fail(code >= 0 && code <= static_cast<int>(FaultCode::cancelled) ? static_cast<FaultCode>(code)
                                                                     : FaultCode::bad_input,
              line);
}

}  // namespace lodeway::server
