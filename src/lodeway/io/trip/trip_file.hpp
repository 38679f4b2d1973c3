#pragma once
/// The trip file: what a leader writes down, in TOML. Every key: docs/method/trip-file.md.
#include <functional>
#include <string>
#include <vector>

#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::io {

/// The ground file that a trip file names, as a path that can be opened from here: a relative name
/// is looked for beside the trip file.
/// Faults: io_failed when the file cannot be read; bad_input with file and line.
[[nodiscard]] Result<std::string> ground_of_trip(const std::string& path);

/// Where things of the map lie that are called so; for places that are given by their name.
using Called = std::function<Result<std::vector<earth::GridPoint>>(const std::string& name)>;

/// The trip, its places on the ground's grid; points and safe places must lie within its bounds.
/// Points come from [[point]] tables, or from the GPX file that the key `gpx` names. Faults:
/// bad_input with file, line, key and what was expected: a wrong type, a value out of range, an
/// unknown key, fewer than two points; a file over 1 MiB is refused (too_large). A place that is no
/// reference is the one thing that `called` knows by that name; the faults then are also its own.
[[nodiscard]] Result<trip::Trip> read_trip(const std::string& path, const earth::GridArea& ground,
                                           const Called& called = {});

}  // namespace lodeway::io
