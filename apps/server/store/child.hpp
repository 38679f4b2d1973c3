#pragma once
/// A run of this program in a process of its own, confined (confine.hpp): whatever a file from
/// outside does to it ends with it.
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"

namespace lodeway::server {

struct ChildRequest {
  std::vector<std::string> words;  ///< "ground", "build", …
  std::string folder;              ///< the only one it may write to; empty: none
  int memory_gib = 6;
  int processor_s = 90;
  std::string file;  ///< what a failure is about
};

/// Its standard output. `progress` (may be null) hears the child's progress and can end it: it is
/// killed then, and what it left is cleared by the next run. Faults: bad_input with the child's own
/// line, or "FILE: it cannot be read" when it was ended (memory, time, a crash); io_failed (no
/// more processes); cancelled.
[[nodiscard]] Result<std::string> run_confined(const ChildRequest& request,
                                               tasks::Progress* progress);

}  // namespace lodeway::server
