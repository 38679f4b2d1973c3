#pragma once
/// Ways judged leg by leg. Not for use outside route.
#include <functional>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/teller.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// A way judged leg by leg; what it is called and chosen for is left open.
[[nodiscard]] NamedWay judged(const reckoning::Teller& teller, const walking::Way& way);

/// Each of the ways as `judged` has it, to the last bit; but a leg that several of them go, with
/// the same ends and come to with the same error, is judged once. `go_on` is asked before every
/// round of legs; where it says no the fault is cancelled. Without it nothing fails.
[[nodiscard]] Result<std::vector<NamedWay>> judged(const reckoning::Teller& teller,
                                                   const std::vector<walking::Way>& ways,
                                                   numeric::Parallel& parallel,
                                                   const std::function<bool()>& go_on = {});

/// Sets what the choice counts for water to wade on its legs.
void count_wading(const Cutting& c, NamedWay& way);

}  // namespace lodeway::route
