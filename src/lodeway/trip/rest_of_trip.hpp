#pragma once
/// A trip that goes on from another place than it was planned from, at another hour.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::trip {

struct FromHere {
  earth::GridPoint at;
  std::string name;              ///< what this place is called on the paper
  std::chrono::minutes start{};  ///< clock time at which the party sets out, since midnight
  std::size_t next_point = 1;    ///< index of the trip's point to which it goes first
  std::optional<mapdata::Visibility> visibility;  ///< as it is now; nothing: the trip's
};

/// The trip from there through the points that are left. Where the party stands is no safe ground.
/// `next_point` must be one of the trip's, not its first.
[[nodiscard]] Trip rest_of(Trip trip, const FromHere& from);

/// The point to go on to: the one of this name (any case), never the first. Faults: bad_input,
/// which names those there are.
[[nodiscard]] Result<std::size_t> point_to_go_on_to(const Trip& trip, const std::string& name);

/// The first point of the trip that ends leg `leg` (an index) of its way or a later one; the last
/// where none does. A point ends a leg that ends within 1 m of it.
[[nodiscard]] std::size_t point_after_leg(const Trip& trip, const std::vector<walking::Leg>& legs,
                                          std::size_t leg);

}  // namespace lodeway::trip
