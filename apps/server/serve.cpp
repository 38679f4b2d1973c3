#include "apps/server/serve.hpp"

#include <fcntl.h>
#include <pwd.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <mutex>
#include <thread>

#include "apps/server/http/http.hpp"
#include "apps/server/routes/relocate_routes.hpp"
#include "apps/server/store/confine.hpp"
#include "apps/server/store/service.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/trip/told.hpp"

extern char** environ;  // NOLINT: what the browser inherits

namespace lodeway::server {

namespace {

std::string state_folder(const std::string& given) {
  if (!given.empty()) return given;
  if (const char* state = std::getenv("XDG_STATE_HOME"); state != nullptr && *state == '/')
    return std::string(state) + "/lodeway";
  const char* home = std::getenv("HOME");
  if (home == nullptr || *home != '/') {  // not set, or to nothing: what the system knows
    const passwd* who = getpwuid(getuid());
    home = who != nullptr ? who->pw_dir : nullptr;
  }
  return home != nullptr && *home == '/' ? std::string(home) + "/.local/state/lodeway" : "";
}

/// Kept, so that a page that was open goes on when the server begins again. Nobody else may read it.
Result<std::string> kept_key(const std::string& folder) {
  const auto path = folder + "/key";
  constexpr std::size_t letters = 32;
  const auto read_it = [&] {
    std::ifstream in(path);
    std::string key;
    in >> key;
    return key;
  };
  if (auto key = read_it(); key.size() == letters) return key;
  io::Beside beside(path);
  const int file = open(beside.temporary().c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
                        S_IRUSR | S_IWUSR);
  const auto key = new_id() + new_id();
  const bool written =
      file >= 0 && write(file, key.data(), key.size()) == static_cast<ssize_t>(key.size());
  if (file >= 0) close(file);
  if (!written) return fail(FaultCode::io_failed, path + ": could not be written");
  if (auto done = beside.keep(); !done)
    return std::unexpected(done.error());
  return key;
}

/// Waits for the signals on a thread of its own, so that nothing is done inside a handler. The first
/// ends the server in order; what has not come to its end 0.4 s later is not waited for, nor after
/// a second one: what was answered for is on the disk.
class Ending {
 public:
  Ending() {
    sigset_t all;
    sigemptyset(&all);
    sigemptyset(&wanted_);
    for (const int signal : {SIGINT, SIGTERM}) sigaddset(&wanted_, signal);
    for (const int signal : {SIGINT, SIGTERM, SIGPIPE}) sigaddset(&all, signal);
    pthread_sigmask(SIG_BLOCK, &all, nullptr);  // before any thread is made: they inherit it
    thread_ = std::thread([this] { wait(); });
  }
  ~Ending() {
    over_ = true;
    pthread_kill(thread_.native_handle(), SIGTERM);
    thread_.join();
  }
  Ending(const Ending&) = delete;
  Ending& operator=(const Ending&) = delete;
  void serves(HttpServer* server, Hub* hub) {
    const std::lock_guard lock(mutex_);
    server_ = server;
    hub_ = hub;
  }

 private:
  void wait() {
    int signal = 0;
    sigwait(&wanted_, &signal);
    if (over_) return;
    {
      const std::lock_guard lock(mutex_);
      if (server_ == nullptr) end_now();
      hub_->close();
      server_->stop();
    }
    constexpr timespec patience{0, 400'000'000};
    sigtimedwait(&wanted_, nullptr, &patience);
    if (!over_) end_now();
  }
  [[noreturn]] static void end_now() {
    io::remove_unfinished();
    _exit(0);
  }
  sigset_t wanted_{};
  std::mutex mutex_;
  HttpServer* server_ = nullptr;
  Hub* hub_ = nullptr;
  std::atomic<bool> over_ = false;
  std::thread thread_;
};

}  // namespace

Result<void> serve(const ServeRequest& request,
                   const std::function<void(const std::string&, const std::string&)>& ready) {
  Ending ending;  // the first to be there, the last to go
  const auto folder = state_folder(request.state);
  if (folder.empty())
    return fail(FaultCode::io_failed, "expected a home folder; name another with --state");
  auto service = open_service(folder, request.version);
  if (!service) return std::unexpected(service.error());
  auto& s = **service;
  if (!request.ground.empty()) {
    if (const auto added = s.shelf.add(request.ground, false); !added)
      return std::unexpected(added.error());
  }
  auto http = HttpServer::bind(request.address, request.port);
  if (!http) return std::unexpected(http.error());
  auto key = kept_key(folder);
  if (!key) return std::unexpected(key.error());
  s.key = *std::move(key);
  s.cookie = cookie_of((*http)->port());
  const auto once = new_id() + new_id();
  const Guard guard({(*http)->port(), request.address, s.key, once});
  Router router;
  add_page_routes(router, s);
  add_ground_routes(router, s);
  add_name_routes(router, s);
  add_bring_routes(router, s);
  add_trip_routes(router, s);
  add_way_routes(router, s);
  add_proof_routes(router, s);
  add_paper_routes(router, s);
  add_party_routes(router, s);
  add_relocate_routes(router, s);
  const auto host = request.address == "::1" ? std::string("[::1]") : request.address;
  const auto page = "http://" + host + ":" + std::to_string((*http)->port()) + "/?key=";
  ready(page + s.key, page + once);
  const auto can = confinement_here();
  if (!can.sockets || !can.writes) {
    const auto in = request.language;
    const auto what =
        can.writes ? trip::told(in,
                                "this kernel cannot keep the reading of files from the network "
                                "(seccomp); memory and time are bounded")
        : can.sockets
            ? trip::told(in,
                         "this kernel cannot keep the reading of files from writing elsewhere "
                         "(Landlock); memory and time are bounded")
            : trip::told(in,
                         "this kernel cannot keep the reading of files from the network (seccomp) "
                         "or from writing elsewhere (Landlock); memory and time are bounded");
    std::fprintf(stderr, "lodeway: %s\n", what.c_str());
  }
  ending.serves(http->get(), &s.hub);
  (*http)->run(guard, router, s.hub);
  ending.serves(nullptr, nullptr);
  return {};
}

bool open_browser(const std::string& url) {
  const char* const words[] = {"xdg-open", url.c_str(), nullptr};
  pid_t child = 0;
  if (posix_spawnp(&child, "xdg-open", nullptr, nullptr, const_cast<char**>(words), environ) != 0)
    return false;
  int status = 0;
  return waitpid(child, &status, 0) == child && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

}  // namespace lodeway::server
