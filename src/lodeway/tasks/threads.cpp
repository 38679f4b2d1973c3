#include "lodeway/tasks/threads.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>
#include <vector>

namespace lodeway::tasks {

void Threads::for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) {
  std::atomic<std::size_t> next{0};
  std::size_t done = 0;
  std::mutex telling;
  const auto work = [&] {
    for (std::size_t b = next++; b < blocks && !stopped_; b = next++) {
      run(b);
      if (progress_ == nullptr) continue;
      const std::lock_guard lock(telling);
      const double share = static_cast<double>(++done) / static_cast<double>(blocks);
      if (!progress_->go_on(from_ + (1 - from_) * share, doing_)) stopped_ = true;
    }
  };
  const std::size_t workers =
      std::min<std::size_t>({std::max(1U, std::thread::hardware_concurrency()), 8, blocks});
  std::vector<std::jthread> others;
  for (std::size_t i = 1; i < workers; ++i) others.emplace_back(work);
  work();
}

}  // namespace lodeway::tasks
