#pragma once
/// The party file: raw counts of what a party did, in TOML. Every key: docs/method/party-file.md
#include <string>

#include "lodeway/learn/record/record.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// Faults: io_failed (cannot be read); too_large (over 16 MiB); bad_input with file and line: no
/// TOML, a newer version, an unknown key, a figure that learn::check refuses.
[[nodiscard]] Result<learn::PartyRecord> read_party_file(const std::string& path);

/// The same record read from text; `name` stands in front of what is wrong with it.
[[nodiscard]] Result<learn::PartyRecord> party_of_text(const std::string& text,
                                                       const std::string& name);

/// Numbers in the fewest digits that read back the same; read again it is the same record.
[[nodiscard]] std::string party_file_text(const learn::PartyRecord& record);

/// Written beside, then renamed. Faults: io_failed.
[[nodiscard]] Result<void> write_party_file(const std::string& path,
                                            const learn::PartyRecord& record);

}  // namespace lodeway::io
