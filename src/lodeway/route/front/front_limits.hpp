#pragma once
/// Limits that no way keeps: which one, by how much, where, and the nearest way that there is.
#include "lodeway/route/front/front.hpp"

namespace lodeway::route {

enum class Limit : unsigned char { seconds, hazard, leg_seconds, leg_loss, leg_hazard };

struct MissedLimit {
  Limit which = Limit::seconds;
  double wanted = 0, needed = 0;  ///< in the limit's own unit; needed > wanted
  std::uint32_t arc = 0;          ///< of a leg's limit: index of the leg that needs most
};

struct NearestWay {
  FrontWay way;
  std::vector<MissedLimit> missed;  ///< one, unless no single limit is what stands in the way
  Limits limits;                    ///< as loosened: with these a front is not empty
};

/// For a problem whose front is empty. Where loosening one limit alone opens a way, the limit that
/// has to give least by its own measure (needed / wanted, the earlier of equal ones) and the way
/// that needs least of it, within 0.1 % of the least for a leg's limit, else exact. Where not, the
/// quickest way without limits and all that it misses. Nothing: no way leads there at all.
/// Faults: as find_front.
[[nodiscard]] Result<std::optional<NearestWay>> nearest_to_limits(const FrontProblem& problem);

}  // namespace lodeway::route
