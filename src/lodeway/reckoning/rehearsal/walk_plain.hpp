#pragma once
/// What the vector and the plain walk share.
#include "lodeway/reckoning/rehearsal/walk_kernel.hpp"

namespace lodeway::reckoning {

/// Makes the trace large enough for the plan's steps, with nothing in it that matters.
void make_room(Trace& trace, const WalkPlan& plan, const Walkers& walkers);

}  // namespace lodeway::reckoning
