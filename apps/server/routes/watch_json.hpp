#pragma once
/// Watch them walk: which leg a party loses first, where that was, and why.
#include "apps/server/http/message.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::server {

/// Walks the plan with a few hundred parties that nobody puts back (docs/method/walkers.md). The
/// shape is that of "Watch" in web/api.schema.json; lines in grid metres. Each party counts once,
/// at the leg that it lost first. Faults: cancelled; of the walk.
[[nodiscard]] Result<Json> watched(const walking::Ground& ground, const trip::Plan& plan,
                                   std::uint64_t seed, tasks::Progress& progress);

}  // namespace lodeway::server
