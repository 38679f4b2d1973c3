#include "lodeway/io/files/write_beside.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <utility>
#include <vector>

namespace lodeway::io {

std::string as_kept(std::string path) {
  const auto folder = own_mark() + "/";
  if (const auto at = path.find(folder); at != std::string::npos) path.erase(at, folder.size());
  return path;
}

namespace {
std::unexpected<Fault> refuse(const std::string& path) {
  return fail(FaultCode::io_failed, as_kept(path) + ": could not be written: " + std::strerror(errno));
}

/// Renaming onto a device would put a file in its place, so only files are replaced.
Result<void> can_be_replaced(const std::string& path) {
  std::error_code error;
  const auto there = std::filesystem::status(path, error);
  if (!std::filesystem::exists(there) || std::filesystem::is_regular_file(there)) return {};
  return fail(FaultCode::io_failed,
              as_kept(path) + ": could not be written: there is a " +
                  (std::filesystem::is_directory(there) ? "folder" : "device") + " of this name");
}

/// Long names keep their end: the mark must fit before them into the 255 bytes that a name may have.
std::string beside_of(const std::string& path) {
  constexpr std::size_t longest = 150;
  const std::filesystem::path p(path);
  auto name = p.filename().string();
  if (name.size() > longest) name.erase(0, name.size() - longest);
  return (p.parent_path() / (own_mark() + "-" + name)).string();
}
}  // namespace

Beside::Beside(std::string path)
    : path_(std::move(path)), temporary_(beside_of(path_)), unfinished_(temporary_) {
  clear_left_behind(std::filesystem::path(path_).parent_path().string());
}

Beside::~Beside() {
  if (!kept_) std::remove(temporary_.c_str());
}

Result<void> Beside::keep() {
  if (auto replaced = can_be_replaced(path_); !replaced) return replaced;
  const int file = open(temporary_.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return refuse(path_);
  const bool flushed = fsync(file) == 0;
  close(file);
  if (!flushed || std::rename(temporary_.c_str(), path_.c_str()) != 0) return refuse(path_);
  kept_ = true;
  return {};
}

SetBeside::SetBeside(std::string folder, std::string temporary)
    : folder_(std::move(folder)),
      temporary_(std::move(temporary)),
      unfinished_(std::make_unique<Unfinished>(temporary_)) {}

SetBeside::SetBeside(SetBeside&& other) noexcept
    : folder_(std::move(other.folder_)),
      temporary_(std::exchange(other.temporary_, {})),
      unfinished_(std::move(other.unfinished_)) {}

SetBeside::~SetBeside() {
  std::error_code ignored;
  if (!temporary_.empty()) std::filesystem::remove_all(temporary_, ignored);
}

Result<SetBeside> SetBeside::into(const std::string& folder) {
  clear_left_behind(folder);
  auto temporary = (std::filesystem::path(folder) / own_mark()).string();
  std::error_code error;
  std::filesystem::create_directories(temporary, error);
  if (error || !std::filesystem::is_directory(temporary, error)) {
    return fail(FaultCode::io_failed, folder + ": expected a folder that can be written to");
  }
  return SetBeside(folder, std::move(temporary));
}

Result<void> SetBeside::keep() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(temporary_))
    files.push_back(entry.path());
  const auto to = [&](const std::filesystem::path& file) {
    return (std::filesystem::path(folder_) / file.filename()).string();
  };
  for (const auto& file : files) {
    if (auto replaced = can_be_replaced(to(file)); !replaced) return replaced;
  }
  for (const auto& file : files) {
    if (std::rename(file.c_str(), to(file).c_str()) != 0) return refuse(to(file));
  }
  return {};
}

Result<void> can_be_written(const std::string& path) {
  if (auto replaced = can_be_replaced(path); !replaced) return replaced;
  const Beside beside(path);
  const int file =
      open(beside.temporary().c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file < 0) return refuse(path);
  close(file);
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
