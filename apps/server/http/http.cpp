#include "apps/server/http/http.hpp"

#include <fcntl.h>
#include <httplib.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <charconv>
#include <chrono>
#include <condition_variable>
#include <cstring>
#include <mutex>
#include <thread>

namespace lodeway::server {

namespace {

using Moment = std::chrono::steady_clock::time_point;
using namespace std::chrono_literals;

constexpr std::size_t most_head_bytes = 64U << 10U;
constexpr std::chrono::milliseconds silence = 5s, head_time = 10s, body_time = 30s,
                                    sign_of_life = 5s, look_up = 250ms;
constexpr std::uint64_t slowest_bytes_a_second = 100000;
constexpr int most_requests_a_connection = 10000;

/// A socket with the patience that the library lacks: a head that never ends, in bytes or in time,
/// ends here.
class Wire final : public httplib::Stream {
 public:
  explicit Wire(int socket) : socket_(socket) {}

  /// False when the other side is gone, or says nothing for `silence`, or the server stops.
  [[nodiscard]] bool next_request(const std::function<bool()>& go_on) {
    head_left_ = most_head_bytes;
    in_head_ = true;
    close_after = false;
    bool there = have_ > 0;
    const auto patience = std::chrono::steady_clock::now() + silence;
    while (!there && go_on() && std::chrono::steady_clock::now() < patience)
      there = wait(POLLIN, look_up);
    until_ = std::chrono::steady_clock::now() + head_time;
    return there;
  }
  void head_is_read(std::uint64_t body_bytes) {
    in_head_ = false;
    until_ = std::chrono::steady_clock::now() + body_time +
             std::chrono::seconds(body_bytes / slowest_bytes_a_second);
  }
  bool close_after = false;  ///< the body was not read to its end

  bool is_readable() const override { return have_ > 0 || wait(POLLIN, silence); }
  bool is_writable() const override { return wait(POLLOUT, silence) && !hung_up(); }

  ssize_t read(char* to, std::size_t size) override {
    if (in_head_) {
      if (head_left_ == 0) return -1;
      size = std::min(size, head_left_);
    }
    if (have_ == 0) {
      if (std::chrono::steady_clock::now() > until_ || !wait(POLLIN, silence)) return -1;
      const auto got = recv(socket_, buffer_.data(), buffer_.size(), 0);
      if (got <= 0) return got;
      have_ = static_cast<std::size_t>(got);
      at_ = 0;
    }
    const std::size_t n = std::min(size, have_);
    std::memcpy(to, buffer_.data() + at_, n);
    at_ += n;
    have_ -= n;
    if (in_head_) head_left_ -= n;
    return static_cast<ssize_t>(n);
  }

  ssize_t write(const char* from, std::size_t size) override {
    return wait(POLLOUT, 2 * silence) ? send(socket_, from, size, MSG_NOSIGNAL) : -1;
  }

  void get_remote_ip_and_port(std::string&, int&) const override {}
  void get_local_ip_and_port(std::string&, int&) const override {}
  socket_t socket() const override { return socket_; }

  /// So that a refusal is read before the line is cut: no more from us, theirs thrown away for a
  /// moment.
  void hang_up() {
    ::shutdown(socket_, SHUT_WR);
    const auto until = std::chrono::steady_clock::now() + (close_after ? 1s : 0s);
    while (std::chrono::steady_clock::now() < until && wait(POLLIN, 200ms)) {
      if (recv(socket_, buffer_.data(), buffer_.size(), 0) <= 0) break;
    }
    ::close(socket_);
  }

 private:
  bool wait(short what, std::chrono::milliseconds time) const {
    pollfd one{socket_, what, 0};
    return poll(&one, 1, static_cast<int>(time.count())) > 0 && (one.revents & what) != 0;
  }
  bool hung_up() const {
    pollfd one{socket_, POLLRDHUP, 0};
    return poll(&one, 1, 0) > 0 && (one.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0;
  }
  int socket_;
  std::array<char, 16384> buffer_{};
  std::size_t at_ = 0, have_ = 0, head_left_ = 0;
  bool in_head_ = true;
  Moment until_{};
};

// A request is handled from first to last on the thread of its connection.
thread_local Wire* wire_of_this_thread = nullptr;
thread_local bool turn_away = false;

/// A thread a connection, up to a limit; beyond it the line is cut by the one who takes calls.
class Threads final : public httplib::TaskQueue {
 public:
  void enqueue(std::function<void()> serve) override {
    if (count_.fetch_add(1) >= most_connections) {
      turn_away = true;
      serve();
      turn_away = false;
      done();
      return;
    }
    try {
      std::thread([this, serve = std::move(serve)] {
        serve();
        done();
      }).detach();
    } catch (const std::system_error&) {  // no more threads in the system: the socket is left open
      done();                             // until the other side goes
    }
  }
  void shutdown() override {
    std::unique_lock lock(mutex_);
    none_left_.wait(lock, [&] { return count_ == 0; });
  }

 private:
  void done() {
    const std::lock_guard lock(mutex_);
    --count_;
    none_left_.notify_all();
  }
  std::atomic<std::size_t> count_ = 0;
  std::mutex mutex_;
  std::condition_variable none_left_;
};

std::string small_letters(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  return text;
}

Request translate(const httplib::Request& from) {
  Request out;
  out.method = from.method;
  out.path = from.path;
  for (const auto& [name, value] : from.headers) {
    // Two Hosts, two lengths: whoever sends them hopes that two readers take different ones.
    auto& mine = out.headers[small_letters(name)];
    mine = mine.empty() ? value : mine + ", " + value;
  }
  for (const auto& [key, value] : from.params) out.query.emplace(key, value);
  const auto length = out.header("content-length");
  std::from_chars(length.data(), length.data() + length.size(), out.content_length);
  return out;
}

/// What is there already, then what happens, and a comment now and then: a page that hears nothing
/// for two of them knows that the line is lost.
void send_events(httplib::Response& to, Hub& hub, std::string first) {
  auto listener = hub.listen();
  to.set_header("Cache-Control", "no-store");
  to.set_chunked_content_provider(
      "text/event-stream",
      [listener, first = std::move(first)](std::size_t at, httplib::DataSink& sink) {
        if (at == 0) return sink.write(first.data(), first.size());
        const auto data = listener->next(sign_of_life);
        if (listener->closed()) {
          sink.done();
          return true;
        }
        const std::string text = data ? "data: " + *data + "\n\n" : ":\n\n";
        return sink.write(text.data(), text.size());
      },
      [listener, &hub](bool) { hub.leave(listener); });
}

void give(const Answer& answer, httplib::Response& to, Hub& hub) {
  to.status = answer.status;
  for (const auto& [name, value] : Guard::headers()) to.set_header(name, value);
  for (const auto& [name, value] : answer.headers) to.set_header(name, value);
  if (answer.event_stream) return send_events(to, hub, answer.body ? *answer.body : "");
  if (!answer.body || answer.body->empty()) return;
  const auto body = answer.body;
  to.set_content_provider(body->size(), answer.type,
                          [body](std::size_t at, std::size_t size, httplib::DataSink& sink) {
                            return sink.write(body->data() + at, size);
                          });
}

class Server final : public HttpServer, private httplib::Server {
 public:
  [[nodiscard]] Result<void> take(const std::string& address, int port) {
    set_tcp_nodelay(true);
    // The library's own options let two servers share a port, and each gets half of the requests.
    set_socket_options([](socket_t one) {
      const int yes = 1;
      setsockopt(one, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    set_keep_alive_max_count(most_requests_a_connection);
    set_payload_max_length(most_upload_bytes);
    new_task_queue = [] { return new Threads; };
    port_ = port == 0 ? bind_to_any_port(address) : bind_to_port(address, port) ? port : -1;
    if (port_ < 0) {
      return fail(FaultCode::io_failed,
                  "port " + std::to_string(port) + " of " + address +
                      ": expected one that is free; give another with --port");
    }
    return {};
  }
  int port() const override { return port_; }

  void run(const Guard& guard, const Router& router, Hub& hub) override {
    const auto serve = [&](const httplib::Request& from, httplib::Response& to, BodyReader body) {
      Request request = translate(from);
      request.read_body = std::move(body);
      give(router.answer(request), to, hub);
    };
    set_pre_routing_handler([&, serve](const httplib::Request& from, httplib::Response& to) {
      const Request request = translate(from);
      if (auto refusal = guard.refuse(request)) {
        wire_of_this_thread->close_after = from.method != "GET";
        give(*refusal, to, hub);
        return HandlerResponse::Handled;
      }
      if (from.method == "POST" && request.content_length > 0) return HandlerResponse::Unhandled;
      serve(from, to, {});
      return HandlerResponse::Handled;
    });
    Post(".*", [&, serve](const httplib::Request& from, httplib::Response& to,
                          const httplib::ContentReader& reader) {
      bool whole = false;
      serve(from, to, [&](const std::function<bool(const char*, std::size_t)>& take) {
        return whole = reader(take);
      });
      if (!whole) wire_of_this_thread->close_after = true;
    });
    listen_after_bind();
  }
  void stop() override { httplib::Server::stop(); }

 private:
  bool process_and_close_socket(socket_t socket) override {
    Wire wire(socket);
    if (turn_away) {
      wire.hang_up();
      return true;
    }
    wire_of_this_thread = &wire;
    bool good = true, closed = false;
    for (int left = most_requests_a_connection; good && !closed && left > 0; --left) {
      if (!wire.next_request([&] { return svr_sock_ != INVALID_SOCKET; })) break;
      good = process_request(wire, left == 1, closed, [&](httplib::Request& request) {
        request.headers.erase("Accept-Encoding");  // else the library packs, slowly, what is local
        request.headers.erase("Range");
        std::uint64_t bytes = 0;
        const auto length = request.get_header_value("Content-Length");
        std::from_chars(length.data(), length.data() + length.size(), bytes);
        wire.head_is_read(bytes);
      });
      closed = closed || wire.close_after;
    }
    wire_of_this_thread = nullptr;
    wire.hang_up();
    return good;
  }
  int port_ = 0;
};

}  // namespace

Result<std::unique_ptr<HttpServer>> HttpServer::bind(const std::string& address, int port) {
  auto server = std::make_unique<Server>();
  if (auto ok = server->take(address, port); !ok) return std::unexpected(ok.error());
  return server;
}

}  // namespace lodeway::server
