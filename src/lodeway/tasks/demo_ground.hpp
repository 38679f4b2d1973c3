#pragma once
/// The invented upland as a ground file.
#include <cstdint>
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"

namespace lodeway::tasks {

/// Makes the Skarrow Fells and saves them; the same seed gives the same bytes.
/// Faults: as io::save_ground; cancelled.
[[nodiscard]] Result<void> make_demo_ground(const std::string& path, std::uint64_t seed,
                                            Progress* progress = nullptr);

}  // namespace lodeway::tasks
