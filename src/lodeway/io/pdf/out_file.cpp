#include "lodeway/io/pdf/out_file.hpp"

#include <cerrno>
#include <cstring>
#include <utility>

namespace lodeway::io {

OutFile::OutFile(const std::string& path)
    : path_(path), beside_(path), file_(std::fopen(beside_.temporary().c_str(), "wb")) {
  if (file_ == nullptr) note(errno);
}

OutFile::~OutFile() {
  if (file_ != nullptr) std::fclose(file_);
}

void OutFile::note(int error) {
  if (what_.empty()) what_ = as_kept(path_) + ": could not be written: " + std::strerror(error);
}

bool OutFile::write(const unsigned char* data, unsigned length) {
  if (file_ == nullptr || !what_.empty()) return false;
  if (std::fwrite(data, 1, length, file_) != length) note(errno);
  return what_.empty();
}

Result<void> OutFile::fault() const {
  if (what_.empty()) return {};
  return fail(FaultCode::io_failed, what_);
}

Result<void> OutFile::finish() {
  if (file_ != nullptr && std::fclose(std::exchange(file_, nullptr)) != 0) note(errno);
  if (!what_.empty()) return fault();
  return beside_.keep();
}

}  // namespace lodeway::io
