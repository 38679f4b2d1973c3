#include "apps/server/serve.hpp"

#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <thread>

#include "apps/server/http/http.hpp"
#include "apps/server/routes/relocate_routes.hpp"
#include "apps/server/store/service.hpp"

extern char** environ;  // NOLINT: what the browser inherits

namespace lodeway::server {

namespace {

std::string state_folder(const std::string& given) {
  if (!given.empty()) return given;
  if (const char* state = std::getenv("XDG_STATE_HOME"); state != nullptr && *state == '/')
    return std::string(state) + "/lodeway";
  const char* home = std::getenv("HOME");
  return std::string(home != nullptr ? home : ".") + "/.local/state/lodeway";
}

/// Waits for the signals on a thread of its own, so that nothing is done inside a handler.
class Ending {
 public:
  explicit Ending(HttpServer& server, Hub& hub) {
    sigemptyset(&wanted_);
    for (const int signal : {SIGINT, SIGTERM}) sigaddset(&wanted_, signal);
    thread_ = std::thread([this, &server, &hub] {
      int signal = 0;
      sigwait(&wanted_, &signal);
      hub.close();
      server.stop();
    });
  }
  ~Ending() {
    pthread_kill(thread_.native_handle(), SIGTERM);
    thread_.join();
  }
  Ending(const Ending&) = delete;
  Ending& operator=(const Ending&) = delete;
  /// Before any thread is made: they all inherit it.
  static void block() {
    sigset_t all;
    sigemptyset(&all);
    for (const int signal : {SIGINT, SIGTERM, SIGPIPE}) sigaddset(&all, signal);
    pthread_sigmask(SIG_BLOCK, &all, nullptr);
  }

 private:
  sigset_t wanted_{};
  std::thread thread_;
};

}  // namespace

Result<void> serve(const ServeRequest& request,
                   const std::function<void(const std::string& url)>& ready) {
  Ending::block();
  auto service = open_service(state_folder(request.state), request.version);
  if (!service) return std::unexpected(service.error());
  auto& s = **service;
  if (!request.ground.empty()) {
    if (const auto added = s.shelf.add(request.ground, false); !added)
      return std::unexpected(added.error());
  }
  auto http = HttpServer::bind(request.address, request.port);
  if (!http) return std::unexpected(http.error());
  const std::string key = is_loopback(request.address) ? "" : new_id() + new_id();
  const Guard guard({(*http)->port(), request.address, key});
  Router router;
  add_page_routes(router, s);
  add_ground_routes(router, s);
  add_name_routes(router, s);
  add_bring_routes(router, s);
  add_trip_routes(router, s);
  add_way_routes(router, s);
  add_proof_routes(router, s);
  add_paper_routes(router, s);
  add_party_routes(router);
  add_relocate_routes(router, s);
  const auto host = request.address == "::1" ? std::string("[::1]") : request.address;
  ready("http://" + host + ":" + std::to_string((*http)->port()) + "/" +
        (key.empty() ? "" : "?key=" + key));
  const Ending ending(**http, s.hub);
  (*http)->run(guard, router, s.hub);
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
