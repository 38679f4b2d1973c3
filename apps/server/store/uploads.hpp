#pragma once
/// Files that were dropped on the page, on disk until a ground is built of them.
#include <mutex>
#include <optional>
#include <string>

#include "apps/server/http/message.hpp"

namespace lodeway::server {

/// All uploads together, bytes; one may have `most_upload_bytes` (http.hpp).
inline constexpr std::uint64_t most_uploads_bytes = 6ULL << 30U;

struct Upload {
  std::string id, name, path, role;
  std::uint64_t size = 0;
};

class Uploads {
 public:
  /// Throws away what is older than a day.
  explicit Uploads(std::string folder);

  /// Streams a body to disk, 16 KiB of memory. The name keeps its letters, digits, '-', '_', '.'
  /// and blanks. Parts of a Shapefile (same stem) come to lie beside each other. Seen whole or not
  /// at all. Faults: bad_input (no name; a kind of file that no reader takes, by its ending),
  /// too_large (over the limits, or the disk is nearly full), io_failed.
  [[nodiscard]] Result<Upload> take(const Request& request, const std::string& name);
  [[nodiscard]] std::optional<Upload> find(const std::string& id) const;
  bool drop(const std::string& id);

 private:
  [[nodiscard]] std::string folder_for(const std::string& name) const;
  std::string folder_;
  mutable std::mutex mutex_;
};

/// "elevation", "features", "ground", "part" (belongs to another file), "trip", "marks" (GPX),
/// "whole" (a trip with its ground) or "unknown", by the ending.
[[nodiscard]] std::string role_of(const std::string& name);

}  // namespace lodeway::server
