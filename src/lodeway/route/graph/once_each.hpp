#pragma once
/// Answers to a numbered list of questions, each worked out when it is first asked for and kept.
/// Not for use outside route.
#include <atomic>
#include <cstddef>
#include <memory>
#include <vector>

namespace lodeway::route {

/// Asked by any number of threads, which never wait: two that ask the same at once both work it
/// out, and the first answer is kept. So `make` must give the same whoever asks.
template <class Answer>
class OnceEach {
 public:
  explicit OnceEach(std::size_t count) : kept_(count) {}
  OnceEach(const OnceEach&) = delete;
  OnceEach& operator=(const OnceEach&) = delete;
  ~OnceEach() {
    for (auto& one : kept_) delete one.load(std::memory_order_relaxed);
  }
  template <class Make>
  [[nodiscard]] const Answer& at(std::size_t question, Make&& make) const {
    auto& place = kept_[question];
    if (const auto* known = place.load(std::memory_order_acquire)) return *known;
    auto made = std::make_unique<const Answer>(make());
    const Answer* before = nullptr;
    if (place.compare_exchange_strong(before, made.get(), std::memory_order_acq_rel))
      return *made.release();
    return *before;
  }

 private:
  mutable std::vector<std::atomic<const Answer*>> kept_;
};

}  // namespace lodeway::route
