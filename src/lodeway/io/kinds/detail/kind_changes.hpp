#pragma once
/// What a table of kinds in a TOML file says: in a file of kinds and in a trip. Internal to io.
#include <vector>

#include "lodeway/io/toml/detail/toml_reader.hpp"
#include "lodeway/mapdata/kind.hpp"

namespace lodeway::io {

/// One change a kind named, in the order of mapdata::Kind. Throws Refusal: an unknown kind or key,
/// a figure out of range.
[[nodiscard]] std::vector<mapdata::KindChange> read_kind_changes(TomlReader& kinds);

}  // namespace lodeway::io
