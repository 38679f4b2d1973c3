#include "lodeway/tasks/threads.hpp"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace lodeway::tasks {

void Threads::for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) {
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t b = next++; b < blocks; b = next++) run(b);
  };
  const std::size_t workers = std::min<std::size_t>({std::max(1U, std::thread::hardware_concurrency()), 8, blocks});
  std::vector<std::jthread> others;
  for (std::size_t i = 1; i < workers; ++i) others.emplace_back(work);
  work();
}

}  // namespace lodeway::tasks
