#pragma once
/// Progress of a task as the readers and writers of files ask for it.
#include "lodeway/io/files/progress.hpp"
#include "lodeway/tasks/progress.hpp"

namespace lodeway::tasks {

/// `progress` may be null.
[[nodiscard]] inline io::Progress io_progress(Progress* progress) {
  return [progress](double share, std::string_view doing) {
    return progress == nullptr || progress->go_on(share, std::string(doing));
  };
}

}  // namespace lodeway::tasks
