#pragma once
/// The trip as a JSON document with the keys of the trip file: what the page edits. Read by the
/// same reader, so that there is one validation.
#include <string>
#include <string_view>

#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::io {

/// Faults: bad_input "party.size: expected …", "point[2].at: expected …" (lists count from 1): the
/// key, then what was expected; too_large over 1 MiB. A document that names files (`ground`, `gpx`)
/// is refused.
[[nodiscard]] Result<trip::Trip> trip_of_document(std::string_view json,
                                                  const earth::GridArea& ground);

/// The same trip as a trip file in TOML, which names `ground_file`. Read back it is the same trip.
/// Faults: bad_input (no JSON object; null, or a list of lists).
[[nodiscard]] Result<std::string> trip_file_of_document(std::string_view json,
                                                        const std::string& ground_file);

/// A trip file's text as a document; the ground it names is left out. Faults: bad_input with the
/// line (no TOML); a file that names a GPX file is refused.
[[nodiscard]] Result<std::string> document_of_trip_file(std::string_view toml);

}  // namespace lodeway::io
