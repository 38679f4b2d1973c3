#pragma once
/// The position error of a party as shapes on the ground: a ribbon beside a leg, an ellipse at its
/// end. For screens; the sheet draws its own in millimetres.
#include <optional>
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"

namespace lodeway::reckoning {

/// Of 100 parties so many end in the ellipse. Source: the chi-square distribution with two degrees
/// of freedom, 1 - exp(-k²/2) = 0.95, so k² = -2 ln 0.05 = 5.991.
inline constexpr double ellipse_share = 0.95;
inline constexpr double ribbon_sigmas = 2;

/// Ring of 48 points, closed without repeating the first, around the end of a judged leg (its aim,
/// when aimed off); empty when it is not judged or has no spread. Accuracy: corners on the ellipse
/// within 1e-9 m.
[[nodiscard]] std::vector<earth::GridPoint> end_ellipse(const JudgedLeg& leg);

/// Ring, `ribbon_sigmas` to each side of a judged leg on a bearing, from its start to its end or
/// aim. The half-width grows from the doubt at the start (the leg before it when that one ended
/// without a fix, else `fix_sigma_m` each way) to that at the end, in a straight line: the true
/// growth lies between this and the root of the length. Empty along a line, or when not judged.
[[nodiscard]] std::vector<earth::GridPoint> ribbon(const JudgedLeg& leg, const JudgedLeg* before,
                                                   double fix_sigma_m = 5);

/// One-sigma doubt about a party that has walked `share` (0 to 1) of a judged leg, seen from the
/// leg: in a straight line from the doubt at its start to that at its end, as `ribbon`. On a line
/// there is none across it. Metres; nothing of a leg without a line.
struct Doubt {
  double cross_m = 0, along_m = 0;
};
[[nodiscard]] std::optional<Doubt> doubt_at(const JudgedLeg& leg, const JudgedLeg* before,
                                            double share, double fix_sigma_m = 5);

}  // namespace lodeway::reckoning
