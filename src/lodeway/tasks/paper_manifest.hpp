#pragma once
/// Which files of a folder are Lodeway's own paper, so that an older set's sheets do not lie beside
/// a new card.
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"

namespace lodeway::tasks {

/// A small text file in the folder: a heading, then for each file of the set a checksum of its
/// bytes (FNV-1a, 64 bits, hexadecimal), its size and its name.
inline constexpr const char* manifest_name = "lodeway-paper.txt";

/// The manifest of files that lie in `folder`, by their names. Faults: io_failed.
[[nodiscard]] Result<std::string> manifest_of(const std::string& folder,
                                              const std::vector<std::string>& names);

/// Removes from `folder` what `old_manifest` lists, `names` do not, and nobody has changed since.
/// Never anything else: no other file, no folder, nothing through a link. Says in a sentence each
/// what was removed, and what of another set lies there still (changed since, or named like a sheet
/// of ours): it must not be carried. A manifest that is none is said and not followed.
[[nodiscard]] std::vector<std::string> remove_stale(const std::string& folder,
                                                    const std::string& old_manifest,
                                                    const std::vector<std::string>& names);

/// The manifest of the folder as it is; empty without one, or beyond 1 MiB.
[[nodiscard]] std::string read_manifest(const std::string& folder);

}  // namespace lodeway::tasks
