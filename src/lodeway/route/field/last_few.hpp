#pragma once
/// Answers that took long, kept for when the same is asked again. Not for use outside route.
#include <algorithm>
#include <atomic>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

namespace lodeway::route {

/// The answers kept last, at most `most`; a question that is asked again counts as the latest.
/// Asked and filled by any number of threads: they wait for each other only while the list is
/// looked through, never while an answer is worked out (two may then work out the same one).
template <class Question, class Answer>
class LastFew {
 public:
  explicit LastFew(std::size_t most) : most_(most) {}
  LastFew(const LastFew&) = delete;
  LastFew& operator=(const LastFew&) = delete;

  /// Null where it is not kept.
  [[nodiscard]] std::shared_ptr<const Answer> find(const Question& question) {
    const Turn turn(busy_);
    const auto known = std::ranges::find(kept_, question, &Kept::first);
    if (known == kept_.end()) return nullptr;
    std::rotate(kept_.begin(), known, known + 1);
    return kept_.front().second;
  }
  /// In place of what was kept for the same question. What is dropped lives on with who uses it.
  void keep(Question question, std::shared_ptr<const Answer> answer) {
    std::vector<Kept> dropped;  // their memory is given back out of turn
    const Turn turn(busy_);
    dropped.reserve(2);
    const auto drop = [&](auto at) {
      dropped.push_back(std::move(*at));
      kept_.erase(at);
    };
    const auto known = std::ranges::find(kept_, question, &Kept::first);
    if (known != kept_.end()) drop(known);
    if (most_ == 0) return;
    if (kept_.size() == most_) drop(kept_.end() - 1);
    kept_.emplace(kept_.begin(), std::move(question), std::move(answer));
  }

 private:
  using Kept = std::pair<Question, std::shared_ptr<const Answer>>;
  /// One thread at a time; the core has no mutex (tools/check_layers).
  class Turn {
   public:
    explicit Turn(std::atomic_flag& busy) : busy_(busy) {
      while (busy_.test_and_set(std::memory_order_acquire)) busy_.wait(true);
    }
    ~Turn() {
      busy_.clear(std::memory_order_release);
      busy_.notify_one();
    }
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;

   private:
    std::atomic_flag& busy_;
  };

  std::size_t most_;
  std::vector<Kept> kept_;  ///< the latest first
  std::atomic_flag busy_;
};

}  // namespace lodeway::route
