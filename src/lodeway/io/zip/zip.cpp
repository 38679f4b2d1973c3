#include "lodeway/io/zip/zip.hpp"

#include <algorithm>
#include <array>
#include <memory>

#include <cpl_string.h>
#include <cpl_vsi.h>

#include "lodeway/io/files/write_beside.hpp"

namespace lodeway::io {

namespace {

struct CloseFile {
  void operator()(VSILFILE* file) const { VSIFCloseL(file); }
};
using File = std::unique_ptr<VSILFILE, CloseFile>;

/// The whole of one into the other; `most` bytes at most.
Result<void> copy(VSILFILE* from, VSILFILE* to, std::uint64_t most, const std::string& name) {
  std::array<char, 65536> piece{};
  std::uint64_t done = 0;
  for (;;) {
    const auto read = VSIFReadL(piece.data(), 1, piece.size(), from);
    if (read == 0) return {};
    done += read;
    if (done > most) return fail(FaultCode::too_large, name + ": too large to be unpacked");
    if (VSIFWriteL(piece.data(), 1, read, to) != read)
      return fail(FaultCode::io_failed, name + ": could not be written");
  }
}

std::string inside(const std::string& zip) { return "/vsizip/{" + zip + "}"; }

}  // namespace

Result<void> write_zip(const std::vector<ZipEntry>& entries, const std::string& path) {
  Beside beside(path);
  {
    // Held open, so that each file that is written becomes one of its own.
    const File archive(VSIFOpenL(inside(beside.temporary()).c_str(), "wb"));
    if (!archive) return fail(FaultCode::io_failed, path + ": could not be written");
    std::vector<std::string> names;
    for (const auto& entry : entries) {
      if (std::ranges::find(names, entry.name) != names.end())
        return fail(FaultCode::bad_input, entry.name + ": expected one file of a name");
      names.push_back(entry.name);
      const File from(VSIFOpenL(entry.path.c_str(), "rb"));
      if (!from) return fail(FaultCode::io_failed, entry.path + ": could not be read");
      const File to(VSIFOpenL((inside(beside.temporary()) + "/" + entry.name).c_str(), "wb"));
      if (!to) return fail(FaultCode::io_failed, path + ": could not be written");
      if (auto done = copy(from.get(), to.get(), UINT64_MAX, entry.name); !done) return done;
    }
  }
  return beside.keep();
}

Result<std::vector<std::string>> names_in_zip(const std::string& path) {
  char** const listed = VSIReadDirRecursive(inside(path).c_str());
  if (listed == nullptr) return fail(FaultCode::io_failed, path + ": expected a ZIP file");
  std::vector<std::string> out;
  for (int i = 0; listed[i] != nullptr; ++i) {
    const std::string name = listed[i];
    if (!name.empty() && name.back() != '/') out.push_back(name);
  }
  CSLDestroy(listed);
  return out;
}

Result<void> take_from_zip(const std::string& path, const std::string& name, const std::string& out,
                           std::uint64_t most_bytes) {
  const File from(VSIFOpenL((inside(path) + "/" + name).c_str(), "rb"));
  if (!from) return fail(FaultCode::io_failed, path + ": expected " + name + " in it");
  Beside beside(out);
  {
    const File to(VSIFOpenL(beside.temporary().c_str(), "wb"));
    if (!to) return fail(FaultCode::io_failed, out + ": could not be written");
    if (auto done = copy(from.get(), to.get(), most_bytes, name); !done) return done;
  }
  return beside.keep();
}

}  // namespace lodeway::io
