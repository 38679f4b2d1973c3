#pragma once
/// Inside io/pdf only: a file that is written beside its place and moved there when it is whole.
#include <cstdio>
#include <filesystem>
#include <string>

#include "lodeway/result/result.hpp"

namespace lodeway::io {

class OutFile {
 public:
  explicit OutFile(std::filesystem::path path);
  ~OutFile();
  OutFile(const OutFile&) = delete;
  OutFile& operator=(const OutFile&) = delete;

  [[nodiscard]] bool write(const unsigned char* data, unsigned length);
  /// Flushes, closes, renames. Faults: io_failed with the system's own words.
  [[nodiscard]] Result<void> finish();
  [[nodiscard]] Result<void> fault() const;  ///< the first thing that went wrong

 private:
  void note(int error);
  std::filesystem::path path_, beside_;
  std::FILE* file_ = nullptr;
  std::string what_;
};

}  // namespace lodeway::io
