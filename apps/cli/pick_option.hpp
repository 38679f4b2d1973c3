#pragma once
/// The option --pick, the same in every command that plans a trip.
#include <CLI/CLI.hpp>

#include "lodeway/tasks/plan.hpp"

namespace lodeway::cli {

void add_pick(CLI::App& app, tasks::PlanRequest& request);

}  // namespace lodeway::cli
