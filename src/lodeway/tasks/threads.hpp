#pragma once
/// Loops side by side for the core, which knows no threads itself.
#include <atomic>
#include <string>
#include <utility>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/tasks/progress.hpp"

namespace lodeway::tasks {

/// As many threads as the machine has processors, at most eight; blocks go to whoever is free.
class Threads final : public numeric::Parallel {
 public:
  Threads() = default;
  /// Tells `progress` (may be null) of each block done, as `from` to 1 of the whole. When the work
  /// should stop the blocks that are left are not run, and `stopped` is true: what was made of them
  /// is of no use.
  Threads(Progress* progress, std::string doing, double from)
      : progress_(progress), doing_(std::move(doing)), from_(from) {}
  [[nodiscard]] bool stopped() const { return stopped_; }
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override;

 private:
  Progress* progress_ = nullptr;
  std::string doing_;
  double from_ = 0;
  std::atomic<bool> stopped_ = false;
};

}  // namespace lodeway::tasks
