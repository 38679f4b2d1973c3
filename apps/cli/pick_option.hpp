#pragma once
/// The option --pick, the same in every command that plans a trip.
#include "apps/cli/arguments.hpp"
#include "lodeway/tasks/plan.hpp"

namespace lodeway::cli {

void add_pick(Command& app, tasks::PlanRequest& request);

}  // namespace lodeway::cli
