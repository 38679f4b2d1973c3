#pragma once
/// How much a look at the ground tells of where one is, as an information matrix.
/// Method: docs/method/seen.md. P <- (P^-1 + attention x J)^-1.
#include <span>

#include "lodeway/numeric/covariance.hpp"
#include "lodeway/sight/cue_planes.hpp"

namespace lodeway::sight {

/// What a look uses.
struct Look {
  double since_look_m = 100;  ///< from the last look that was used; nearer than 150 m they share
                              ///< the map's error and count for less
  bool altimeter = false;
  double since_known_height_m = 0;  ///< climbed and dropped since the height was known
  double spread_m = 50;  ///< of the party now, one sigma: like lines within two of it confuse
};

/// J (x east, y north), 1/m2, one look at a place: height along its gradient (12 m by altimeter,
/// else hypot(20 m, a fifth of the climb)), the turn of the fall and the change of steepness over
/// 60 m, lines within 40 m across their lie (known x 1 / 18 m squared, shared among like lines
/// within two sigma), up to two things in view. Weighted by the share that is new: min(1, since /
/// 150 m) x 0.6 on fall and steepness, min(1, since / 300 m) on an altimeter. Not yet times
/// attention. Zero on voids and outside. Gradients of fall are cut at 0.02 rad/m, and nothing is
/// taken from it on ground of less than 5 degrees. All *practice*.
[[nodiscard]] numeric::Covariance information(const CuePlanes& planes, earth::GridPoint place,
                                              const Look& look, const Perception& perception,
                                              mapdata::Visibility visibility);

/// (P^-1 + J)^-1. P must be positive definite.
[[nodiscard]] numeric::Covariance informed(const numeric::Covariance& p,
                                           const numeric::Covariance& j);

}  // namespace lodeway::sight
