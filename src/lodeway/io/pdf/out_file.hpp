#pragma once
/// Inside io/pdf only: bytes as Cairo hands them over, into a file that appears whole or not at
/// all.
#include <cstdio>
#include <string>

#include "lodeway/io/files/write_beside.hpp"

namespace lodeway::io {

class OutFile {
 public:
  explicit OutFile(const std::string& path);
  ~OutFile();
  OutFile(const OutFile&) = delete;
  OutFile& operator=(const OutFile&) = delete;

  [[nodiscard]] bool write(const unsigned char* data, unsigned length);
  /// Closes and keeps. Faults: io_failed with the system's own words.
  [[nodiscard]] Result<void> finish();
  [[nodiscard]] Result<void> fault() const;  ///< the first thing that went wrong

 private:
  void note(int error);
  std::string path_;
  Beside beside_;
  std::FILE* file_ = nullptr;
  std::string what_;
};

}  // namespace lodeway::io
