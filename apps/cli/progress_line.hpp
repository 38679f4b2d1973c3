#pragma once
/// Progress on the terminal: one line that renews itself; nothing when the output is not a
/// terminal. Ctrl-C, a closed window or `kill` stops the work at its next step, so that nothing
/// half-written is left; what has not stopped by itself after 0.4 s is ended, its unfinished files
/// removed. A second signal ends the program at once.
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
  int pipe_ = -1;  ///< of the program that started this one (fault_status.hpp)
  std::chrono::steady_clock::time_point told_{};
  std::string doing_;
};

}  // namespace lodeway::cli
