#pragma once
/// How far wrong a party goes: one table of *practice* defaults, which the party's own figures
/// replace. Source: common practice of the trade, gathered and dated in
/// docs/method/dead-reckoning.md; no published measurement of walkers on a bearing was found. What
/// supports each figure stands beside it there.
#include "lodeway/result/result.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::reckoning {

/// One-sigma errors of dead reckoning, radians, metres and fractions.
struct Errors {
  double bearing_sigma = 0;   ///< per leg: how the bearing was set and is held, the whole leg long
  double sighting_sigma = 0;  ///< per sighting, independent
  double sighting_every_m = 100;  ///< length of one sighting
  double distance_sigma = 0;      ///< per leg, fraction of the distance
  double distance_random = 0;     ///< step by step, metres per root metre
  double compass_sigma = 0;  ///< shared by all legs: a needle or declination wrongly allowed for
  double stride_sigma = 0;   ///< shared by all legs, fraction: the stride is not what is believed
  friend bool operator==(const Errors&, const Errors&) = default;
};

/// The table by instrument, skill and visibility, with the party's own figures put over it.
/// A stated bearing sigma is that of one leg against the next; what all legs share has keys of its
/// own, because legs that close (a triangle) cannot show it. A stated distance sigma is the whole of
/// a leg's own error: the step-by-step part is then 0.
[[nodiscard]] Errors errors_of(const walking::Party& party);

/// The same, refusing overrides that are 0, not finite, or beyond use (bearing sigmas above 45
/// degrees, distance above 1). Negative and NaN mean "take the default". Faults: bad_input, naming
/// the field.
[[nodiscard]] Result<Errors> checked_errors_of(const walking::Party& party);

/// What a party does when things do not turn up; all *practice*.
struct Habits {
  double beyond_sigmas = 2;       ///< goes on past the reckoned end by so many sigmas of distance
  double line_beyond_sigmas = 3;  ///< the same where a line is expected
  double wrong_way_sigmas = 2;    ///< follows a line the wrong way by the offset and so many sigmas
  double doubt_min = 10;          ///< standing time to notice, talk and decide
  double lie_sigma_deg = 10;      ///< how well the lie of a line is read off with the compass
  double fix_sigma_m = 5;         ///< each way, of a party that has just found itself
  double least_known = 0.3;       ///< a mark known less often is not relied on
  double least_fix = 0.5;         ///< a handrail's end known less often is no fix
  double near_enough_m = 50;      ///< an end that is not known is kept when the count is within it
  double least_crossing_deg = 20;  ///< a line met at less is not aimed at
  double least_offset_m = 5;       ///< a smaller offset is not worth saying
};

}  // namespace lodeway::reckoning
