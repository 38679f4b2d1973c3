#pragma once
/// The door: HTTP over TCP. cpp-httplib stands in http.cpp only.
#include <memory>
#include <string>

#include "apps/server/http/events.hpp"
#include "apps/server/http/guard.hpp"
#include "apps/server/http/router.hpp"

namespace lodeway::server {

inline constexpr std::uint64_t most_upload_bytes = 2ULL << 30U;
inline constexpr std::size_t most_connections = 400;

class HttpServer {
 public:
  /// Binds; port 0 takes any free one. Faults: io_failed (the port is taken, the address is not
  /// this machine's).
  [[nodiscard]] static Result<std::unique_ptr<HttpServer>> bind(const std::string& address,
                                                                int port);
  virtual ~HttpServer() = default;
  [[nodiscard]] virtual int port() const = 0;
  /// Serves until stop(). At most `most_connections` at a time, each on its own thread; one more is
  /// closed at once. A request has 10 s for its head of at most 64 KiB, 5 s between two pieces, and
  /// for its body 30 s and a second for each 100 kB. A silent connection is closed after 5 s.
  virtual void run(const Guard& guard, const Router& router, Hub& hub) = 0;
  /// From any thread.
  virtual void stop() = 0;
};

}  // namespace lodeway::server
