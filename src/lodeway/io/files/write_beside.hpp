#pragma once
/// Files appear whole or not at all: written under another name beside the place, then renamed.
#include <memory>
#include <string>
#include <string_view>

#include "lodeway/io/files/unfinished.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// A file that is being written: hand `temporary()` to whatever writes it, then `keep()`.
/// Not kept, it is removed again; what killed runs left in the folder goes too.
class Beside {
 public:
  explicit Beside(std::string path);
  ~Beside();
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  /// In the same folder and with the same ending, so that formats can be told by name.
  [[nodiscard]] const std::string& temporary() const { return temporary_; }
  /// Flushes to the disk and renames; only a file is replaced, no folder and no device. Faults:
  /// io_failed, with the path and the reason.
  [[nodiscard]] Result<void> keep();

 private:
  std::string path_, temporary_;
  Unfinished unfinished_;
  bool kept_ = false;
};

/// Several files that appear together: written into the folder `temporary()` within theirs, then
/// `keep()`. Not kept, all of them are removed again.
class SetBeside {
 public:
  /// Faults: io_failed, when the folder is not there and cannot be made, or cannot be written to.
  [[nodiscard]] static Result<SetBeside> into(const std::string& folder);
  ~SetBeside();
  SetBeside(SetBeside&& other) noexcept;
  SetBeside& operator=(SetBeside&&) = delete;
  [[nodiscard]] const std::string& temporary() const { return temporary_; }
  /// Moves each file into its folder. Faults: io_failed; before the first is moved when one of them
  /// would replace a folder or a device.
  [[nodiscard]] Result<void> keep();

 private:
  SetBeside(std::string folder, std::string temporary);
  std::string folder_, temporary_;
  std::unique_ptr<Unfinished> unfinished_;
};

/// What a file within `SetBeside::temporary()` will be called, for messages; others as they are.
[[nodiscard]] std::string as_kept(std::string path);

/// To be asked before long work whose answer goes there. Faults: those that keep() would have, and
/// io_failed when the folder is not there or cannot be written to. Leaves nothing behind.
[[nodiscard]] Result<void> can_be_written(const std::string& path);

/// Faults: io_failed when the folder cannot be written to or the disk is full; then nothing is
/// left.
[[nodiscard]] Result<void> write_beside(const std::string& path, std::string_view bytes);

}  // namespace lodeway::io
