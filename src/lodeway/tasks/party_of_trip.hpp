#pragma once
/// The party file that a trip names, put over the trip's party and the ground's kinds.
#include <string>
#include <vector>

#include "lodeway/learn/record/record.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/sight/chances.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// Does nothing where the trip names none. What the trip itself states stays. What the party has
/// shown of the four chances and of gross errors goes into its own table (Party::chances), under
/// what is stated, and is given. `instead`: this
/// record, not the file that the trip names, if any. Faults: as io::read_party_file.
[[nodiscard]] Result<sight::Changes> take_party_file(trip::Trip& trip, walking::Ground& ground,
                                                     const learn::PartyRecord* instead = nullptr);

/// What a party has shown of the tables: of chances, and of how well kinds are known and noticed.
struct LearntTables {
  sight::Changes chances;
  std::vector<mapdata::KindChange> kinds;
};
/// What a record has shown, put over the trip's party alone: errors, stride, pace, rests. The
/// ground stays as it is, for others may be using it; what was shown of its kinds is given.
[[nodiscard]] LearntTables take_party_record(trip::Trip& trip, const mapdata::KindTable& kinds,
                                             const learn::PartyRecord& record);

/// What is stated goes over what was learnt.
[[nodiscard]] sight::Changes with_stated(sight::Changes learnt, const sight::Changes& stated);

}  // namespace lodeway::tasks
