#pragma once
/// A recorded track with its times and heights, from GPX 1.0 or 1.1.
#include <string>
#include <string_view>

#include "lodeway/learn/track/track.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

inline constexpr std::size_t most_track_points = 2'000'000;

/// All tracks and segments of the file, in its order; without a track the points of its routes,
/// and `route` is set. Times are UTC seconds (a zone offset in the file is taken off), heights as
/// recorded. A point without time or height keeps NaN. `name` is what the track is called; empty:
/// the file's name without folders. Faults: io_failed (cannot be opened); bad_input (no GPX, ends
/// too early, latitude beyond 90); too_large (over most_track_points).
[[nodiscard]] Result<learn::Track> read_gpx_track(const std::string& path,
                                                  const std::string& name = {});

/// The same from bytes in memory, as a page sends them; `name` stands in front of what is wrong.
[[nodiscard]] Result<learn::Track> gpx_track_of_bytes(std::string_view bytes,
                                                      const std::string& name);

}  // namespace lodeway::io
