#include "lodeway/io/files/write_beside.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <utility>

namespace lodeway::io {

namespace {
std::unexpected<Fault> refuse(const std::string& path) {
  return fail(FaultCode::io_failed, path + ": could not be written: " + std::strerror(errno));
}
}  // namespace

Beside::Beside(std::string path) : path_(std::move(path)) {
  const std::filesystem::path p(path_);
  temporary_ =
      (p.parent_path() / (".new-" + std::to_string(getpid()) + "-" + p.filename().string()))
          .string();
}

Beside::~Beside() {
  if (!kept_) std::remove(temporary_.c_str());
}

Result<void> Beside::keep() {
  const int file = open(temporary_.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return refuse(path_);
  const bool flushed = fsync(file) == 0;
  close(file);
  if (!flushed || std::rename(temporary_.c_str(), path_.c_str()) != 0) return refuse(path_);
  kept_ = true;
  return {};
}

Result<void> write_beside(const std::string& path, std::string_view bytes) {
  Beside beside(path);
  std::FILE* file = std::fopen(beside.temporary().c_str(), "wb");
  if (file == nullptr) return refuse(path);
  const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size();
  if ((std::fclose(file) != 0) || !written) return refuse(path);
  return beside.keep();
}

}  // namespace lodeway::io
