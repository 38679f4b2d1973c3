#include "lodeway/io/zip/zip.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>

#include <minizip/unzip.h>
#include <minizip/zip.h>

#include "lodeway/io/files/write_beside.hpp"

namespace lodeway::io {

namespace {

constexpr std::size_t piece_bytes = 65536;
/// The same bytes whenever it is written: 1 January 1980, the first day that the format knows.
constexpr unsigned long first_day = (1UL << 21U) | (1UL << 16U);
constexpr std::uintmax_t most_plain_bytes = 0xfffffffe;  ///< beyond it a file needs ZIP64

/// Closed by hand where it matters, and here where something went wrong.
class Writing {
 public:
  explicit Writing(const std::string& path) : zip_(zipOpen64(path.c_str(), APPEND_STATUS_CREATE)) {}
  Writing(const Writing&) = delete;
  Writing& operator=(const Writing&) = delete;
  ~Writing() {
    if (zip_ != nullptr) zipClose(zip_, nullptr);
  }
  [[nodiscard]] bool is_open() const { return zip_ != nullptr; }
  [[nodiscard]] bool begin(const std::string& name, bool large) {
    zip_fileinfo info{};
    info.dosDate = first_day;
    return zipOpenNewFileInZip64(zip_, name.c_str(), &info, nullptr, 0, nullptr, 0, nullptr,
                                 Z_DEFLATED, Z_DEFAULT_COMPRESSION, large ? 1 : 0) == ZIP_OK;
  }
  [[nodiscard]] bool write(const char* bytes, std::size_t size) {
    return zipWriteInFileInZip(zip_, bytes, static_cast<unsigned>(size)) == ZIP_OK;
  }
  [[nodiscard]] bool end() { return zipCloseFileInZip(zip_) == ZIP_OK; }
  [[nodiscard]] bool close() {
    const bool good = zipClose(zip_, nullptr) == ZIP_OK;
    zip_ = nullptr;
    return good;
  }

 private:
  zipFile zip_;
};

class Reading {
 public:
  explicit Reading(const std::string& path) : zip_(unzOpen64(path.c_str())) {}
  Reading(const Reading&) = delete;
  Reading& operator=(const Reading&) = delete;
  ~Reading() {
    if (zip_ != nullptr) unzClose(zip_);
  }
  [[nodiscard]] unzFile get() const { return zip_; }

 private:
  unzFile zip_;
};

Result<void> put(Writing& archive, const ZipEntry& entry, const std::string& path) {
  std::error_code error;
  const auto size = std::filesystem::file_size(entry.path, error);
  std::ifstream from(entry.path, std::ios::binary);
  if (error || !from) return fail(FaultCode::io_failed, entry.path + ": could not be read");
  const auto unwritten = [&] {
    return fail(FaultCode::io_failed, path + ": could not be written");
  };
  if (!archive.begin(entry.name, size > most_plain_bytes)) return unwritten();
  std::array<char, piece_bytes> piece{};
  while (from) {
    from.read(piece.data(), piece.size());
    const auto read = static_cast<std::size_t>(from.gcount());
    if (read > 0 && !archive.write(piece.data(), read)) return unwritten();
  }
  if (!from.eof()) return fail(FaultCode::io_failed, entry.path + ": could not be read");
  return archive.end() ? Result<void>() : unwritten();
}

}  // namespace

Result<void> write_zip(const std::vector<ZipEntry>& entries, const std::string& path) {
  Beside beside(path);
  Writing archive(beside.temporary());
  if (!archive.is_open()) return fail(FaultCode::io_failed, path + ": could not be written");
  std::vector<std::string> names;
  for (const auto& entry : entries) {
    if (std::ranges::find(names, entry.name) != names.end())
      return fail(FaultCode::bad_input, entry.name + ": expected one file of a name");
    names.push_back(entry.name);
    if (auto done = put(archive, entry, path); !done) return done;
  }
  if (!archive.close()) return fail(FaultCode::io_failed, path + ": could not be written");
  return beside.keep();
}

Result<std::vector<std::string>> names_in_zip(const std::string& path) {
  constexpr std::size_t most_names = 10'000;
  const Reading archive(path);
  if (archive.get() == nullptr) return fail(FaultCode::io_failed, path + ": expected a ZIP file");
  std::vector<std::string> out;
  std::array<char, 1024> name{};
  for (int at = unzGoToFirstFile(archive.get()); at == UNZ_OK && out.size() < most_names;
       at = unzGoToNextFile(archive.get())) {
    if (unzGetCurrentFileInfo64(archive.get(), nullptr, name.data(), name.size() - 1, nullptr, 0,
                                nullptr, 0) != UNZ_OK)
      return fail(FaultCode::io_failed, path + ": expected a ZIP file");
    const std::string one(name.data());
    if (!one.empty() && one.back() != '/') out.push_back(one);
  }
  return out;
}

Result<void> take_from_zip(const std::string& path, const std::string& name, const std::string& out,
                           std::uint64_t most_bytes) {
  constexpr int by_case = 1;
  const Reading archive(path);
  if (archive.get() == nullptr || unzLocateFile(archive.get(), name.c_str(), by_case) != UNZ_OK ||
      unzOpenCurrentFile(archive.get()) != UNZ_OK)
    return fail(FaultCode::io_failed, path + ": expected " + name + " in it");
  Beside beside(out);
  std::ofstream to(beside.temporary(), std::ios::binary);
  std::array<char, piece_bytes> piece{};
  std::uint64_t done = 0;
  for (;;) {
    const int read = unzReadCurrentFile(archive.get(), piece.data(), piece_bytes);
    if (read < 0) return fail(FaultCode::io_failed, path + ": " + name + " cannot be unpacked");
    if (read == 0) break;
    done += static_cast<std::uint64_t>(read);
    if (done > most_bytes) return fail(FaultCode::too_large, name + ": too large to be unpacked");
    to.write(piece.data(), read);
  }
  // The checksum is looked at when the file is closed.
  if (unzCloseCurrentFile(archive.get()) != UNZ_OK)
    return fail(FaultCode::io_failed, path + ": " + name + " is damaged");
  to.close();
  if (!to) return fail(FaultCode::io_failed, out + ": could not be written");
  return beside.keep();
}

}  // namespace lodeway::io
