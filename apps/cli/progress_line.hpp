#pragma once
/// Progress on the terminal: one line that renews itself; nothing when the output is not a
/// terminal. Ctrl-C, a closed window or `kill` stops the work at its next step, so that nothing
/// half-written is left.
#include <chrono>
#include <string>

#include "lodeway/tasks/progress.hpp"

namespace lodeway::cli {

class ProgressLine : public tasks::Progress {
 public:
  ProgressLine();
  ~ProgressLine() override;
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  [[nodiscard]] bool go_on(double share, const std::string& doing) override;
  void clear();

 private:
  std::chrono::steady_clock::time_point begun_;
  bool terminal_, shown_ = false;
};

}  // namespace lodeway::cli
