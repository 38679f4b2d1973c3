#pragma once
/// From a request to a way: every stretch found, followed or set out straight, as the leader wants
/// it.
#include <functional>

#include "lodeway/result/result.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "lodeway/route/field/find_path.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::route {

/// `go_on(done, of)` is asked after each stretch; false ends with FaultCode::cancelled.
using GoOn = std::function<bool(std::size_t done, std::size_t of)>;

/// Legs with all their figures, tick-offs, stops and dangers. Faults: as find_path, leg_along, leg_straight, for the first stretch that
/// fails.
[[nodiscard]] Result<walking::Way> plan_way(const walking::Ground& ground,
                                            const walking::Request& request,
                                            units::Language language, const GoOn& go_on = {});

/// All its stretches' legs; `points` as named_points gives them. Faults: as
/// plan_way.
[[nodiscard]] Result<std::vector<walking::Leg>> given_legs(
    const Cutting& c, const std::vector<walking::Waypoint>& points, const GoOn& go_on);

}  // namespace lodeway::route
