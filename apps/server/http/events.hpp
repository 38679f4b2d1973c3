#pragma once
/// What happened, told to every open page: one stream a page for everything.
#include <chrono>
#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>

namespace lodeway::server {

/// What one page has not been told yet. A newer event with the same name takes the older one's
/// place, so a slow page is told the last of a job, not each step, and the queue stays short.
class Listener {
 public:
  /// The next event's data, or nothing when `patience` is over.
  [[nodiscard]] std::optional<std::string> next(std::chrono::milliseconds patience);
  [[nodiscard]] bool closed() const;

 private:
  friend class Hub;
  struct Event {
    std::string name, data;
  };
  void put(const std::string& name, const std::string& data);
  void close();
  mutable std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Event> waiting_;
  bool closed_ = false;
};

class Hub {
 public:
  [[nodiscard]] std::shared_ptr<Listener> listen();
  void leave(const std::shared_ptr<Listener>& listener);
  /// `name` tells which event it takes the place of: "job 1f…", "trip 7c…".
  void tell(const std::string& name, const std::string& data);
  void close();

 private:
  std::mutex mutex_;
  std::set<std::shared_ptr<Listener>> listeners_;
  bool closed_ = false;
};

}  // namespace lodeway::server
