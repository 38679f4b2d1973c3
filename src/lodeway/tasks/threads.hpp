#pragma once
/// Loops side by side for the core, which knows no threads itself.
#include "lodeway/numeric/parallel.hpp"

namespace lodeway::tasks {

/// As many threads as the machine has processors, at most eight; blocks go to whoever is free.
class Threads final : public numeric::Parallel {
 public:
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override;
};

}  // namespace lodeway::tasks
