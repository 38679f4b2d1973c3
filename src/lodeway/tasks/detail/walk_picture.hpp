#pragma once
/// The picture of an overdue party's map. Not for use outside the tasks.
#include <string>

#include "lodeway/trip/planned_leg.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walkers/overdue.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks::detail {

/// The ground, the smallest areas that hold 50, 80 and 95 of 100 of those who are not home in one
/// hue, the way, and the first areas with their numbers. Needs a share. Faults: io_failed.
[[nodiscard]] Result<void> draw_overdue(const walking::Ground& ground, const trip::PlannedWay& way,
                                        const walkers::Overdue& overdue, units::Language in,
                                        const std::string& path);

}  // namespace lodeway::tasks::detail
