#pragma once
/// Legs along a line: losing it, the wrong branch, an end that nothing marks. Rates are *practice*.
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/reckoning/ends/guides.hpp"

namespace lodeway::reckoning {

/// P(the line is kept for a length): recognised^(length / 4 km): who is on a line has it under
/// foot, so its chance of being known when it is met is taken for 4 km of it. Cutting a leg in two
/// changes nothing. `shift`: of that chance over 4 km, in logit.
[[nodiscard]] double keeps_line(const mapdata::KindTraits& traits, mapdata::Visibility visibility,
                                double length_m, double shift = 0);

/// P(the right branch is taken where another line leaves): 1 - rate * (1 + cos turn) / 2, with
/// `turn_deg` between the branch and the way onward (0 to 180). The rate: 2 % clear, 4 % cloud, 6 %
/// night, 8 % snow; `shift`: of taking the right one, in logit.
[[nodiscard]] double takes_right_branch(mapdata::Visibility visibility, double turn_deg,
                                        double shift = 0);

/// The same for all branches along a way: at each of its points, every line of a like kind that
/// leads away from it, by the turn between the two. Lines that the way itself follows are none.
/// Within `seen_m` of the end only those err who do not recognise it, which is `known`.
[[nodiscard]] double takes_all_branches(const Guides& around, const std::vector<GridPoint>& way,
                                        mapdata::Kind followed, mapdata::Visibility visibility,
                                        double seen_m = 0, double known = 0, double shift = 0);

/// Along-track sigma on a line, `since_m` after the last thing that was ticked off: count, stride
/// and steps.
[[nodiscard]] double handrail_sigma_m(const Errors& errors, double since_m);

/// P(the party stops at the end): it recognises it in passing, or else its count is within
/// `tolerance_m`.
[[nodiscard]] double stops_at_end(double along_sigma_m, double recognised, double tolerance_m);

}  // namespace lodeway::reckoning
