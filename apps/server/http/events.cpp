#include "apps/server/http/events.hpp"

#include <algorithm>

namespace lodeway::server {

std::optional<std::string> Listener::next(std::chrono::milliseconds patience) {
  std::unique_lock lock(mutex_);
  changed_.wait_for(lock, patience, [&] { return closed_ || !waiting_.empty(); });
  if (waiting_.empty()) return std::nullopt;
  auto data = std::move(waiting_.front().data);
  waiting_.pop_front();
  return data;
}

bool Listener::closed() const {
  const std::lock_guard lock(mutex_);
  return closed_;
}

void Listener::put(const std::string& name, const std::string& data) {
  {
    const std::lock_guard lock(mutex_);
    const auto same = std::ranges::find(waiting_, name, &Event::name);
    if (same != waiting_.end())
      same->data = data;
    else
      waiting_.push_back({name, data});
  }
  changed_.notify_one();
}

void Listener::close() {
  {
    const std::lock_guard lock(mutex_);
    closed_ = true;
  }
  changed_.notify_all();
}

std::shared_ptr<Listener> Hub::listen() {
  auto listener = std::make_shared<Listener>();
  const std::lock_guard lock(mutex_);
  if (closed_) listener->close();
  listeners_.insert(listener);
  return listener;
}

void Hub::leave(const std::shared_ptr<Listener>& listener) {
  const std::lock_guard lock(mutex_);
  listeners_.erase(listener);
}

void Hub::tell(const std::string& name, const std::string& data) {
  const std::lock_guard lock(mutex_);
  for (const auto& listener : listeners_) listener->put(name, data);
}

void Hub::close() {
  const std::lock_guard lock(mutex_);
  closed_ = true;
  for (const auto& listener : listeners_) listener->close();
}

}  // namespace lodeway::server
