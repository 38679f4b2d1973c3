#pragma once
/// What a trip file says otherwise about the four chances and the three settings.
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/sight/chances.hpp"

namespace lodeway::io {

/// The table [chances] of a trip file; nothing when it has none. Keys: docs/method/trip-file.md.
/// Faults: as read_trip.
[[nodiscard]] Result<sight::Changes> chances_of_trip(const std::string& path);

}  // namespace lodeway::io
