#pragma once
/// Legs along a line: losing it, the wrong branch, an end that nothing marks. Rates are *practice*.
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/reckoning/defaults.hpp"

namespace lodeway::reckoning {

/// P(the line is kept for a length): recognised^(length / 1 km), with the kind's own chance of being
/// recognised taken as the chance to keep it for a kilometre. Cutting a leg in two changes nothing.
[[nodiscard]] double keeps_line(const mapdata::KindTraits& traits, mapdata::Visibility visibility,
                                double length_m);

/// P(the right branch is taken where another line leaves): 1 - rate * (1 + cos turn) / 2, with `turn_deg`
/// between the branch and the way onward (0 to 180). The rate: 2 % clear, 4 % cloud, 6 % night, 8 % snow.
[[nodiscard]] double takes_right_branch(mapdata::Visibility visibility, double turn_deg);

/// Along-track sigma on a line, `since_m` after the last thing that was ticked off: count, stride and steps.
[[nodiscard]] double handrail_sigma_m(const Errors& errors, double since_m);

/// P(the party stops at the end): it recognises it in passing, or else its count is within `tolerance_m`.
[[nodiscard]] double stops_at_end(double along_sigma_m, double recognised, double tolerance_m);

}  // namespace lodeway::reckoning
