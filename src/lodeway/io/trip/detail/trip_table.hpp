#pragma once
/// Internal to io/trip: one reader for a trip's keys, whether they stand in a file or in a
/// document.
#include <string>

#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/io/toml/detail/toml_reader.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/sight/chances.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::io {

/// Throws Refusal. `folder`: where a GPX file that the trip names is looked for; null: a document,
/// which may name no files.
/// `called`: as in read_trip.
[[nodiscard]] trip::Trip read_trip_table(TomlReader t, const std::string* folder,
                                         const earth::GridArea& ground, const Called& called);

/// `search_at_end = 0.5`, `[chances.notice]` with `path = [0.9, 0.8, 0.6, 0.3]`. Throws Refusal.
[[nodiscard]] sight::Changes read_chances(TomlReader t);

}  // namespace lodeway::io
