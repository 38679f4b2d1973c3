#pragma once
/// Plans as they are read on the day that it is.
#include "lodeway/earth/time_zone.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::tasks {

/// Now, in whole seconds; or what SOURCE_DATE_EPOCH says (reproducible-builds.org: seconds since
/// 1970), so that pages can be made again as they were.
[[nodiscard]] earth::UtcSeconds now();

/// The plan with a caution first where its day is past: it reaches page, card and home note.
[[nodiscard]] trip::Plan as_of_today(trip::Plan plan);

}  // namespace lodeway::tasks
