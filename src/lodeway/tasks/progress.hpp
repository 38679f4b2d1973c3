#pragma once
/// How long work tells where it is and learns that it should stop.
#include <string>

namespace lodeway::tasks {

/// Called now and then, from one thread at a time.
class Progress {
 public:
  virtual ~Progress() = default;
  /// `share` from 0 to 1, or below 0 when it cannot be told; `doing` is a few words.
  /// Answers false when the work should stop: it then ends with FaultCode::cancelled.
  [[nodiscard]] virtual bool go_on(double share, const std::string& doing) = 0;
};

}  // namespace lodeway::tasks
