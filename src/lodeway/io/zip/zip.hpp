#pragma once
/// Several files as one ZIP (PKWARE's APPNOTE 6.3), and out of it again.
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"

namespace lodeway::io {

struct ZipEntry {
  std::string name;  ///< in the archive; no folders
  std::string path;  ///< the file that it is
};

/// Written beside `path` and renamed. Faults: io_failed, naming the file; bad_input (two of a name).
[[nodiscard]] Result<void> write_zip(const std::vector<ZipEntry>& entries, const std::string& path);

/// Names of the archive's files, folders left out. Faults: io_failed (no ZIP).
[[nodiscard]] Result<std::vector<std::string>> names_in_zip(const std::string& path);
/// One file of it to `out`, at most `most_bytes` unpacked. Faults: io_failed, too_large.
[[nodiscard]] Result<void> take_from_zip(const std::string& path, const std::string& name,
                                         const std::string& out, std::uint64_t most_bytes);

}  // namespace lodeway::io
