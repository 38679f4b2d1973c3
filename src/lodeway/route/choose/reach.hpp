#pragma once
/// What of a ground a trip could touch.
#include <vector>

#include "lodeway/route/escape/escape_routes.hpp"
#include "lodeway/walking/piece.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::route {

/// Of two places so many metres apart: the long axis of the ellipse about them in which ways are
/// looked for first.
[[nodiscard]] inline double first_reach_m(double straight_m) { return 1.35 * straight_m + 1200; }

/// How far beyond those ellipses something may count: what an end could be mistaken for (3 km at
/// most), what a party meets past it, where an escape route leads.
inline constexpr double beyond_reach_m = 3000;

/// The ellipses of all stretches, the safe places that are named and `beyond_reach_m` round them,
/// out to whole multiples of 2 km, so that a place moved by a little leaves the box as it is.
/// `times`: so many times as far beyond. Grid metres.
[[nodiscard]] walking::Box reach_of(const walking::Request& request, double times = 1);

/// Could what lies beyond the piece change one of these escape routes? No where every leg has one
/// that takes less than the fastest that anybody could get out of the piece.
/// `least_s_per_m`: nobody is faster. No for a piece that is the whole.
[[nodiscard]] bool leads_off_beyond(const terrain::Frame& piece, const terrain::Frame& whole,
                                    const std::vector<EscapesOfWay>& escapes, double least_s_per_m);

}  // namespace lodeway::route
