#pragma once
/// The party file that a trip names, put over the trip's party and the ground's kinds.
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// Does nothing where the trip names none. What the trip itself states stays. Faults: as
/// io::read_party_file.
[[nodiscard]] Result<void> take_party_file(trip::Trip& trip, walking::Ground& ground);

}  // namespace lodeway::tasks
