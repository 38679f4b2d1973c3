#pragma once
/// Every way of a request that the rule of choice picks from, found and judged. Not for use outside
/// route.
#include <string>
#include <vector>

#include "lodeway/route/choose/way_parts.hpp"

namespace lodeway::route {

struct AllWays {
  std::vector<NamedWay> ways;        ///< judged whole, in no order; the least-time way among them
  std::vector<std::string> remarks;  ///< what could not be kept on a stretch
  bool farther = false;  ///< looked for beyond the first ellipses, perhaps beyond this piece
  bool given = false;    ///< the leader set out every stretch
};

/// The ways of at most 24 points of the front, evenly over its losses, and the least-time way, each
/// cut into legs and judged as it is walked. Where none keeps all that is asked, also those of a
/// front that is sought without what fails and weighs ground to keep off. `points`: two at least,
/// named, each checked to be a place that the party can stand at. The way home is not yet held
/// against the way out (home_same_way.hpp). Faults: as plan_way where no way leads; cancelled.
[[nodiscard]] Result<AllWays> all_ways(const LocalGround& local, Workshop& shop,
                                       const std::vector<walking::Waypoint>& points,
                                       const Wishes& wishes, numeric::Parallel& parallel,
                                       const GoOn& go_on = {});

}  // namespace lodeway::route
