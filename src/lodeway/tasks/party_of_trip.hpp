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

/// What a record has shown, put over the trip's party alone: errors, stride, pace, rests. How well
/// things are known for what they are stays the ground's, for others may be using it; what it has
/// shown of the table of chances is given.
sight::Changes take_party_record(trip::Trip& trip, const mapdata::KindTable& kinds,
                       const learn::PartyRecord& record);

/// What is stated goes over what was learnt.
[[nodiscard]] sight::Changes with_stated(sight::Changes learnt, const sight::Changes& stated);

}  // namespace lodeway::tasks
