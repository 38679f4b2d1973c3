#pragma once
/// How the core runs loops side by side without knowing threads: whoever has threads hands one in.
#include <cstddef>
#include <functional>

namespace lodeway::numeric {

class Parallel {
 public:
  Parallel() = default;
  Parallel(const Parallel&) = delete;
  Parallel& operator=(const Parallel&) = delete;
  virtual ~Parallel() = default;
  /// Calls run(block) once for each block in [0, blocks), in any order, maybe at the same time, and
  /// returns when all are done. `run` must not throw; blocks must not share what they write.
  virtual void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) = 0;
};

/// One after the other.
class Serial final : public Parallel {
 public:
  void for_each_block(std::size_t blocks, const std::function<void(std::size_t)>& run) override {
    for (std::size_t b = 0; b < blocks; ++b) run(b);
  }
};

}  // namespace lodeway::numeric
