#include "lodeway/io/pdf/out_file.hpp"

#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>

namespace lodeway::io {

OutFile::OutFile(std::filesystem::path path) : path_(std::move(path)), beside_(path_) {
  beside_ += ".writing-" + std::to_string(::getpid());
  errno = 0;
  file_ = std::fopen(beside_.c_str(), "wb");
  if (file_ == nullptr) note(errno);
}

OutFile::~OutFile() {
  if (file_ == nullptr) return;
  std::fclose(file_);
  std::error_code ignored;
  std::filesystem::remove(beside_, ignored);
}

void OutFile::note(int error) {
  if (what_.empty()) {
    what_ = path_.string() + ": cannot be written: " + std::generic_category().message(error);
  }
}

bool OutFile::write(const unsigned char* data, unsigned length) {
  if (file_ == nullptr || !what_.empty()) return false;
  errno = 0;
  if (std::fwrite(data, 1, length, file_) != length) note(errno);
  return what_.empty();
}

Result<void> OutFile::fault() const {
  if (what_.empty()) return {};
  return fail(FaultCode::io_failed, what_);
}

Result<void> OutFile::finish() {
  if (file_ == nullptr) return fault();
  errno = 0;
  if (std::fflush(file_) != 0 || ::fsync(::fileno(file_)) != 0) note(errno);
  std::error_code error;
  if (what_.empty()) {
    std::fclose(std::exchange(file_, nullptr));
    std::filesystem::rename(beside_, path_, error);
    if (error) {
      note(error.value());
      std::error_code ignored;
      std::filesystem::remove(beside_, ignored);
    }
  }
  return fault();
}

}  // namespace lodeway::io
