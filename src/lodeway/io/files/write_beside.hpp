#pragma once
/// Files appear whole or not at all: written under another name beside the place, then renamed.
#include <string>
#include <string_view>

#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// A file that is being written: hand `temporary()` to whatever writes it, then `keep()`.
/// Not kept, it is removed again.
class Beside {
 public:
  explicit Beside(std::string path);
  ~Beside();
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  /// In the same folder and with the same ending, so that formats can be told by name.
  [[nodiscard]] const std::string& temporary() const { return temporary_; }
  /// Flushes to the disk and renames. Faults: io_failed, with the path and the system's reason.
  [[nodiscard]] Result<void> keep();

 private:
  std::string path_, temporary_;
  bool kept_ = false;
};

/// Faults: io_failed when the folder cannot be written to or the disk is full; then nothing is
/// left.
[[nodiscard]] Result<void> write_beside(const std::string& path, std::string_view bytes);

}  // namespace lodeway::io
