#pragma once
/// Ends of legs: a point that is seen from within some distance.
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::reckoning {

/// P(|offset + cross error| < r): the straight track passes within r, however far it goes on.
/// `offset_m`: how far beside the target the track is aimed. Accuracy 1e-15.
[[nodiscard]] double passes_within(double cross_sigma_m, double offset_m, double seen_from_m);

/// The same for a party that gives up `beyond_m` past its reckoned end: it must come within r
/// before. Along and cross error may be correlated. Gauss-Legendre over the cross error; accuracy
/// 1e-9. The cross error is the one at the end, the along error the one where it gives up
/// (`at_give_up`); docs/method/ends-of-legs.md.
[[nodiscard]] double sees_before_giving_up(const LegAxes& at_end, double offset_m,
                                           double seen_from_m, double beyond_m);

}  // namespace lodeway::reckoning
